/** Σ of a figure over a list. */
export function sumOf<T>(list: readonly T[], figureOf: (each: T) => number): number {
  return list.reduce((sum, each) => sum + figureOf(each), 0);
}

/** A part of a whole; absent where there is no whole. */
export function shareOf(part: number, whole: number): number | undefined {
  return whole > 0 ? part / whole : undefined;
}
