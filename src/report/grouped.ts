/** A list by what its entries have in common, in the order in which that first appears. */
export function grouped<T, K>(list: readonly T[], keyOf: (each: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const each of list) {
    const key = keyOf(each);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [each]);
    else group.push(each);
  }
  return groups;
}
