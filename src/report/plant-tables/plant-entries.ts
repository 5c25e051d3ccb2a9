/**
 * A member as a cell holds it: figures as they are written, a rate as '1.6 / tire', a series with semicolons. What
 * is no such thing stays out of the cell.
 *
 * @example cellText({ amount: 1.6, per: 'tire' }) // '1.6 / tire'
 */
export function cellText(value: unknown): string | undefined {
  if (value === undefined) return '';
  if (typeof value === 'number' || typeof value === 'string') return String(value);
  if (Array.isArray(value)) {
    const parts = value.map(cellText);
    return parts.some((part) => part === undefined || part === '') ? undefined : parts.join('; ');
  }
  const { amount, per } = (value ?? {}) as { readonly amount?: unknown; readonly per?: unknown };
  return typeof amount === 'number' && typeof per === 'string' ? `${amount} / ${per}` : undefined;
}

/** The entries of a table, as they stand in the scenario. */
export function plantEntries(
  document: Readonly<Record<string, unknown>>,
  key: string,
): Readonly<Record<string, unknown>>[] {
  const { operation } = document as { readonly operation?: Readonly<Record<string, unknown>> };
  const list = key === 'windows' ? operation?.windows : document[key];
  return Array.isArray(list) ? list : [];
}

/** Where a table's list stands. */
export function plantPointer(key: string): string {
  return key === 'windows' ? '/operation/windows' : `/${key}`;
}

/** The member at a path of an entry. */
export function memberAt(entry: unknown, path: string): unknown {
  return path
    .split('/')
    .reduce<unknown>((at, key) => (at as Record<string, unknown> | undefined)?.[key], entry);
}
