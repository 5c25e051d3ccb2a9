/**
 * A JSON Merge Patch applied to a document (RFC 7396, section 2): members of the patch replace those of the
 * target, null removes one, everything that is no object replaces the whole. Lists are replaced as a whole.
 * The target is left as it is.
 *
 * @example mergePatch({ a: 1, b: { c: 2 } }, { a: null, b: { d: 3 } }) // { b: { c: 2, d: 3 } }
 */
export function mergePatch(target: unknown, patch: unknown): unknown {
  if (!isObject(patch)) return patch;
  const members = new Map(isObject(target) ? Object.entries(target) : []);
  for (const [key, value] of Object.entries(patch)) {
    if (value === null) members.delete(key);
    else members.set(key, mergePatch(members.get(key), value));
  }
  return Object.fromEntries(members);
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
