import type { Problem } from '../../issue/problem.js';
import { formatPointer, type Path } from '../../scenario/pointer.js';
import { Refusal } from './refusal.js';

/** Figures of a plant are far below; products of several of these can still be told from infinity. */
const LARGEST_NUMBER = 1e30;

/**
 * Lists that are not endless, and numbers that can be reckoned with.
 *
 * @param name the member of the request that holds the value
 * @throws Refusal 422 with each place
 */
export function requireModest(name: string, value: unknown, mostEntries: number): void {
  const problems = immodest([name], value, mostEntries);
  if (problems.length === 0) return;
  throw new Refusal('invalid-request', 'A list is too long or a number too large.', { problems });
}

function immodest(path: Path, value: unknown, most: number): Problem[] {
  if (typeof value === 'number' && Math.abs(value) > LARGEST_NUMBER) {
    return [
      problem(
        path,
        `${value} is too large`,
        `Write a number between −${LARGEST_NUMBER} and ${LARGEST_NUMBER}.`,
      ),
    ];
  }
  if (typeof value !== 'object' || value === null) return [];
  if (Array.isArray(value)) {
    if (value.length > most) {
      return [
        problem(path, `A list of ${value.length} entries is too long`, `Write ${most} entries at most.`),
      ];
    }
    return value.flatMap((entry, i) => immodest([...path, i], entry, most));
  }
  return Object.entries(value).flatMap(([key, entry]) => immodest([...path, key], entry, most));
}

function problem(path: Path, message: string, remedy: string): Problem {
  return { pointer: formatPointer(path), code: 'out of range', message: `${message}.`, remedy };
}
