import type { Problem } from '../../issue/problem.js';
import { type Draft, startsWith } from '../draft.js';
import { problemAt, shown } from '../place.js';
import { formatPointer, type Path } from '../pointer.js';

/**
 * The largest figure of a scenario, and the smallest that is not 0, in whatever unit it is written. A plant's masses,
 * hours and money stay far inside in any unit and currency; a product or quotient of two dozen such figures is at
 * most 1e288 and so still a number in double precision, which ends at 1.8e308.
 */
export const LARGEST_FIGURE = 1e12;
export const SMALLEST_FIGURE = 1e-12;

/** No figure is too large or too small to compute with. */
export function checkMagnitudes(draft: Draft): Problem[] {
  return problemsAt(draft, [], draft.document);
}

function problemsAt(draft: Draft, path: Path, value: unknown): Problem[] {
  if (draft.misshapen.some((wrong) => startsWith(path, wrong))) return [];
  if (typeof value === 'number') return isComputable(value) ? [] : [immoderate(draft, path, value)];
  if (typeof value !== 'object' || value === null) return [];
  const entries: readonly (readonly [string | number, unknown])[] = Array.isArray(value)
    ? value.map((entry, position) => [position, entry])
    : Object.entries(value);
  return entries.flatMap(([key, entry]) => problemsAt(draft, [...path, key], entry));
}

function isComputable(value: number): boolean {
  const size = Math.abs(value);
  return size === 0 || (size >= SMALLEST_FIGURE && size <= LARGEST_FIGURE);
}

function immoderate(draft: Draft, path: Path, value: number): Problem {
  const pointer = formatPointer(path);
  return Math.abs(value) > LARGEST_FIGURE
    ? problemAt(
        draft.document,
        pointer,
        'out of range',
        `${shown(value)} is too large to compute with`,
        `Write a figure between -${LARGEST_FIGURE} and ${LARGEST_FIGURE}; leave a limit out where there is none`,
      )
    : problemAt(
        draft.document,
        pointer,
        'out of range',
        `${shown(value)} is too small to compute with`,
        `Write 0, or a figure of ${SMALLEST_FIGURE} or more`,
      );
}
