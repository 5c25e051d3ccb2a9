/**
 * The candidate that a misspelt name most probably means: the fewest insertions, deletions, substitutions
 * and swaps of neighbours away, at most a third of the longer name; the first of equals; undefined where
 * none is near. Upper and lower case count as equal.
 *
 * @example nearest('car-tyres', ['truck-tires', 'car-tires']) // 'car-tires'
 */
export function nearest(name: string, candidates: Iterable<string>): string | undefined {
  let best: string | undefined;
  let fewest = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const limit = Math.max(1, Math.floor(Math.max(name.length, candidate.length) / 3));
    const edits = editDistance(name.toLowerCase(), candidate.toLowerCase());
    if (edits <= limit && edits < fewest) {
      best = candidate;
      fewest = edits;
    }
  }
  return best;
}

/** Damerau–Levenshtein distance in its restricted form (optimal string alignment). */
export function editDistance(a: string, b: string): number {
  const rows = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      row[j] = Math.min(
        rows[i - 1][j] + 1,
        row[j - 1] + 1,
        rows[i - 1][j - 1] + (same ? 0 : 1),
        swapped ? rows[i - 2][j - 2] + 1 : Number.POSITIVE_INFINITY,
      );
    }
    rows.push(row);
  }
  return rows[a.length][b.length];
}
