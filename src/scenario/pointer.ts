/** RFC 6901 JSON Pointers in which an id may stand in place of a list position: `/outlets/turf/price`. */

/** Keys of objects as strings, positions of lists as numbers. */
export type Path = readonly (string | number)[];

/** The place to which a pointer leads: the path by position and what stands there. */
export interface Location {
  readonly path: Path;
  readonly value: unknown;
}

/**
 * The reference tokens of a pointer, unescaped; undefined where it is no pointer.
 *
 * @example parsePointer('/a~1b/0') // ['a/b', '0']
 */
export function parsePointer(pointer: string): string[] | undefined {
  if (pointer === '') return [];
  if (!pointer.startsWith('/') || /~(?![01])/.test(pointer)) return undefined;
  return pointer
    .slice(1)
    .split('/')
    .map((token) => token.replaceAll('~1', '/').replaceAll('~0', '~'));
}

/** @example formatPointer(['outlets', 0, 'a/b']) // '/outlets/0/a~1b' */
export function formatPointer(path: Path): string {
  return path.map((token) => `/${String(token).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}

/** The place in the document to which the pointer leads; undefined where it leads nowhere. Own keys only. */
export function resolvePointer(document: unknown, pointer: string): Location | undefined {
  const tokens = parsePointer(pointer);
  if (tokens === undefined) return undefined;
  const path: (string | number)[] = [];
  let value = document;
  for (const token of tokens) {
    const key = Array.isArray(value) ? positionOf(value, token) : token;
    if (key === undefined || !isContainer(value) || !Object.hasOwn(value, key)) return undefined;
    path.push(key);
    value = (value as Record<string | number, unknown>)[key];
  }
  return { path, value };
}

/**
 * The same place with ids in place of the positions of list entries that have one; undefined where the
 * pointer leads nowhere. An id that stands twice in a list keeps its position.
 *
 * @example toIdPointer(document, '/outlets/0/price') // '/outlets/turf/price'
 */
export function toIdPointer(document: unknown, pointer: string): string | undefined {
  const location = resolvePointer(document, pointer);
  if (location === undefined) return undefined;
  let value = document;
  const tokens = location.path.map((key) => {
    const list = value;
    value = (list as Record<string | number, unknown>)[key];
    const id = idOf(value);
    return Array.isArray(list) && id !== undefined && positionOf(list, id) === key && isLast(list, id, key)
      ? id
      : key;
  });
  return formatPointer(tokens);
}

/** The id of a list entry. */
export function idOf(value: unknown): string | undefined {
  if (!isContainer(value) || Array.isArray(value) || !Object.hasOwn(value, 'id')) return undefined;
  const { id } = value as { id: unknown };
  return typeof id === 'string' ? id : undefined;
}

function positionOf(list: readonly unknown[], token: string): number | undefined {
  if (/^(0|[1-9]\d*)$/.test(token)) return Number(token) < list.length ? Number(token) : undefined;
  const position = list.findIndex((entry) => idOf(entry) === token);
  return position < 0 ? undefined : position;
}

function isLast(list: readonly unknown[], id: string, position: number | string): boolean {
  return list.findLastIndex((entry) => idOf(entry) === id) === position;
}

function isContainer(value: unknown): value is object {
  return typeof value === 'object' && value !== null;
}
