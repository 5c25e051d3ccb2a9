import type { Problem } from '../issue/problem.js';
import { problemAt } from './place.js';
import { formatPointer, type Path } from './pointer.js';

/** Lists and objects inside each other. */
export const MAX_DEPTH = 64;

export interface PlainDocument {
  /** A copy made of plain objects, lists, strings, numbers, booleans and null. */
  readonly document: unknown;
  /** Places of what JSON cannot hold, or what must not be read; the copy leaves them out. */
  readonly refused: readonly { readonly path: Path; readonly problem: Problem }[];
}

/** A plain copy of what a caller hands over, so that nothing but own keys and JSON values is ever read. */
export function plainDocument(document: unknown): PlainDocument {
  const refused: { path: Path; problem: Problem }[] = [];
  const refuse = (path: Path, problem: readonly [string, string]) => {
    const pointer = formatPointer(path);
    refused.push({ path, problem: problemAt(document, pointer, 'malformed', ...problem) });
    return undefined;
  };

  const copyOf = (value: unknown, path: Path): unknown => {
    if (typeof value !== 'object' || value === null) {
      return isScalar(value) ? value : refuse(path, [`a ${typeof value} is no JSON value`, 'Delete it']);
    }
    if (path.length > MAX_DEPTH) return refuse(path, ['it is nested too deep', 'Delete it']);
    if (Array.isArray(value)) return Array.from(value, (entry, i) => copyOf(entry, [...path, i]));
    if (!isPlain(value))
      return refuse(path, ['this is no plain object', 'Give plain objects, as read from JSON']);
    const copy: Record<string, unknown> = {};
    for (const [key, entry] of Object.entries(value)) {
      if (key === '__proto__') refuse([...path, key], ['the key `__proto__` is not read', 'Delete it']);
      else if (entry !== undefined) copy[key] = copyOf(entry, [...path, key]);
    }
    return copy;
  };

  return { document: copyOf(document, []), refused };
}

function isScalar(value: unknown): boolean {
  return value === undefined || ['string', 'number', 'boolean'].includes(typeof value) || value === null;
}

function isPlain(value: object): boolean {
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === null || prototype === Object.prototype;
}
