import type { Table } from '../table.js';
import { plain } from './plain.js';
import type { SweepDocument } from './sweep-schema.js';

/** Slopes are printed where any is known. */
export function printedPoints({ points }: SweepDocument): Table {
  const hasSlopes = points.some(({ slopeLeft, slopeRight }) => slopeLeft !== null || slopeRight !== null);
  const slope = (value: number | null) => (value === null ? '-' : plain(value));
  const slopes = hasSlopes ? (['slope left', 'slope right'] as const) : [];
  return {
    columns: [
      { head: 'at', kind: 'text' },
      { head: 'present value', kind: 'money' },
      ...slopes.map((head) => ({ head, kind: 'text' as const })),
      { head: 'kind', kind: 'text' },
    ],
    rows: points.map(({ at, value, slopeLeft, slopeRight, kind }) => [
      plain(at),
      value,
      ...(hasSlopes ? [slope(slopeLeft), slope(slopeRight)] : []),
      kind,
    ]),
  };
}

export function pointsTable({ points, of }: SweepDocument): Table {
  return {
    columns: [
      { head: of.unit === '' ? 'at' : `at (${of.unit})`, kind: 'count' },
      { head: 'present value', kind: 'money' },
      { head: 'slope left', kind: 'count' },
      { head: 'slope right', kind: 'count' },
      { head: 'kind', kind: 'text' },
      { head: 'change', kind: 'text' },
    ],
    rows: points.map(({ at, value, slopeLeft, slopeRight, kind, change }) => [
      at,
      value,
      slopeLeft ?? undefined,
      slopeRight ?? undefined,
      kind,
      change,
    ]),
  };
}

export function rangesTable({ ranges }: SweepDocument): Table {
  return {
    columns: [
      { head: 'from', kind: 'count' },
      { head: 'to', kind: 'count' },
      { head: 'status', kind: 'text' },
      { head: 'reason', kind: 'text' },
    ],
    rows: ranges.map(({ from, to, status, reason }) => [from, to, status, reason]),
  };
}
