import { readSieve } from '../quantity/sieve.js';
import type { SievePoint } from './fit-sizing.js';

/** What is wrong with one line of a sieve table. */
export interface LineProblem {
  /** From 1. */
  readonly line: number;
  readonly message: string;
}

export type SieveTable =
  | { readonly ok: true; readonly points: readonly SievePoint[] }
  | { readonly ok: false; readonly problems: readonly LineProblem[] };

const PERCENT = 100;

/**
 * Reads a measured sieve table: a line a sieve, its opening (a number in mm or a designation) and the
 * cumulative percent that passes it, apart by a comma, semicolon or tab. Empty lines and lines that open with
 * `#` are skipped, and so is a first line of headings. All problems at once, by line.
 */
export function parseSieveTable(text: string): SieveTable {
  const rows = rowsOf(text);
  const readings = rows.map(readRow);
  const problems = readings.flatMap((reading) => ('message' in reading ? [reading] : []));
  const points = readings.flatMap((reading) => ('message' in reading ? [] : [reading]));
  const all = [...problems, ...orderProblems(points)].sort((a, b) => a.line - b.line);
  if (all.length > 0) return { ok: false, problems: all };
  if (points.length < 2) {
    return { ok: false, problems: [{ line: 1, message: 'The table has fewer than two sieves.' }] };
  }
  return { ok: true, points: points.map(({ opening, passing }) => ({ opening, passing })) };
}

interface Row {
  readonly line: number;
  readonly fields: readonly string[];
}

interface LinePoint extends SievePoint {
  readonly line: number;
}

function rowsOf(text: string): Row[] {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  const rows = lines.map((line, i) => ({ line: i + 1, fields: fieldsOf(line) }));
  const filled = rows.filter(
    ({ fields }) => fields.some((field) => field !== '') && !fields[0]!.startsWith('#'),
  );
  return filled.filter((row, i) => i > 0 || !isHeading(row));
}

function fieldsOf(line: string): string[] {
  return line.split(/[,;\t]/).map((field) =>
    field
      .trim()
      .replace(/^"(.*)"$/, '$1')
      .trim(),
  );
}

/** A first line neither of whose fields has a figure in it. */
function isHeading({ fields }: Row): boolean {
  return fields.every((field) => !/^[-+.\d]/.test(field) && !/^no\.?\s*\d/i.test(field));
}

function readRow({ line, fields }: Row): LinePoint | LineProblem {
  if (fields.length !== 2)
    return { line, message: `Expected an opening and a percentage, found ${fields.length} fields.` };
  const [size, percent] = fields as [string, string];
  const number = numberOf(size);
  if (number !== undefined && !(number > 0)) return { line, message: `The opening ${size} is not above 0.` };
  const sieve = readSieve(number ?? size);
  if (sieve.kind === 'unknown') {
    return { line, message: `There is no sieve "${size}"; the nearest are ${sieve.nearest.join(', ')}.` };
  }
  const share = numberOf(percent.replace(/\s*%$/, ''));
  if (share === undefined) return { line, message: `"${percent}" is not a number of percent.` };
  if (share < 0 || share > PERCENT) return { line, message: `${percent} percent is not between 0 and 100.` };
  return { line, opening: sieve.opening, passing: share / PERCENT };
}

function orderProblems(points: readonly LinePoint[]): LineProblem[] {
  const rising = [...points].sort((a, b) => a.opening - b.opening);
  return rising.slice(1).flatMap((point, i) => {
    const finer = rising[i]!;
    if (point.opening === finer.opening) {
      return [
        {
          line: Math.max(point.line, finer.line),
          message: `The opening of ${point.opening} mm is listed twice.`,
        },
      ];
    }
    if (point.passing >= finer.passing) return [];
    return [
      {
        line: point.line,
        message: `Less passes ${point.opening} mm than the finer ${finer.opening} mm; give cumulative percent passing.`,
      },
    ];
  });
}

function numberOf(text: string): number | undefined {
  return /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i.test(text) ? Number(text) : undefined;
}
