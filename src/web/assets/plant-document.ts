/** A scenario as JSON, its members by pointers in which an id may stand in place of a list's position. */
export type Json = unknown;
export type Members = Record<string, Json>;

export function keysOf(pointer: string): string[] {
  return pointer.split('/').slice(1);
}

export function at(value: Json, pointer: string): Json {
  return keysOf(pointer).reduce(step, value);
}

/** The pointer to the list in which an entry stands. */
export function listOf(pointer: string): string {
  return pointer.slice(0, pointer.lastIndexOf('/'));
}

/** A document with one member other than it was; undefined takes it away. */
export function withMember(value: Json, [key, ...rest]: readonly string[], member: Json): Json {
  if (key === undefined) return member;
  if (Array.isArray(value)) {
    const position = value.findIndex((each, i) => (each as Members)?.id === key || String(i) === key);
    return value.map((each, i) => (i === position ? withMember(each, rest, member) : each));
  }
  const members = (value ?? {}) as Members;
  const inner = withMember(members[key], rest, member);
  const { [key]: _, ...others } = members;
  const isEmptied = rest.length > 0 && isEmptyObject(inner);
  return inner === undefined || isEmptied ? others : { ...members, [key]: inner };
}

/** A document without one entry of a list. */
export function withoutEntry(value: Json, pointer: string): Json {
  const entry = at(value, pointer);
  const list = at(value, listOf(pointer)) as Json[];
  return withMember(
    value,
    keysOf(listOf(pointer)),
    list.filter((each) => each !== entry),
  );
}

/** A pointer with ids in place of positions. */
export function byIds(value: Json, pointer: string): string {
  let inner = value;
  return keysOf(pointer)
    .map((key) => {
      const id = Array.isArray(inner) ? (inner[Number(key)] as Members | undefined)?.id : undefined;
      inner = step(inner, key);
      return `/${typeof id === 'string' ? id : key}`;
    })
    .join('');
}

/** An id that no entry of a list has yet. */
export function freeId(id: string, list: readonly Members[]): string {
  for (let i = 2; ; i += 1) {
    const candidate = `${id.slice(0, 36)}-${i}`;
    if (!list.some((each) => each.id === candidate)) return candidate;
  }
}

function step(value: Json, key: string): Json {
  if (Array.isArray(value)) return value.find((each) => (each as Members)?.id === key) ?? value[Number(key)];
  return (value as Members | undefined)?.[key];
}

function isEmptyObject(value: Json): boolean {
  return (
    typeof value === 'object' && value !== null && !Array.isArray(value) && Object.keys(value).length === 0
  );
}
