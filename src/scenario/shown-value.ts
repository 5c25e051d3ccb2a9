/** A value as a message shows it, long text cut. */
export function quoted(value: unknown): string {
  if (typeof value === 'string') return `"${value.length > 40 ? `${value.slice(0, 40)}…` : value}"`;
  return typeof value === 'number' ? String(value) : kindOf(value);
}

/** What a value is, in words. */
export function kindOf(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'string') return `the text ${quoted(value)}`;
  return typeof value === 'object' ? 'an object' : `${value}`;
}
