import type { Problem } from '../../issue/problem.js';
import { formatPointer, type Path } from '../../scenario/pointer.js';
import { Refusal } from './refusal.js';

/**
 * Lists that are not endless.
 *
 * @param name the member of the request that holds the value
 * @throws Refusal 422 with each place
 */
export function requireModest(name: string, value: unknown, mostEntries: number): void {
  const problems = immodest([name], value, mostEntries);
  if (problems.length === 0) return;
  throw new Refusal('invalid-request', 'A list is too long.', { problems });
}

function immodest(path: Path, value: unknown, most: number): Problem[] {
  if (typeof value !== 'object' || value === null) return [];
  if (Array.isArray(value)) {
    if (value.length > most) {
      const message = `A list of ${value.length} entries is too long.`;
      const remedy = `Write ${most} entries at most.`;
      return [{ pointer: formatPointer(path), code: 'out of range', message, remedy }];
    }
    return value.flatMap((entry, i) => immodest([...path, i], entry, most));
  }
  return Object.entries(value).flatMap(([key, entry]) => immodest([...path, key], entry, most));
}
