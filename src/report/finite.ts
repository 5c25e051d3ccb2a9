/**
 * A copy of plain data without its infinite figures: JSON has none, and a missing limit is absent.
 *
 * @throws RangeError on NaN, which is a defect and never data, and on an infinite figure in a list, where
 * leaving it out would move the others.
 */
export function withoutInfinities<T>(data: T): T {
  return copy(data, '') as T;
}

function copy(data: unknown, pointer: string): unknown {
  if (typeof data === 'number') {
    if (Number.isFinite(data)) return data;
    throw new RangeError(`${data} at ${pointer}`);
  }
  if (Array.isArray(data)) return data.map((item, i) => copy(item, `${pointer}/${i}`));
  if (typeof data !== 'object' || data === null) return data;
  return Object.fromEntries(
    Object.entries(data)
      .filter(([, value]) => value !== undefined && !isInfinite(value))
      .map(([key, value]) => [key, copy(value, `${pointer}/${key}`)]),
  );
}

function isInfinite(value: unknown): boolean {
  return value === Number.POSITIVE_INFINITY || value === Number.NEGATIVE_INFINITY;
}
