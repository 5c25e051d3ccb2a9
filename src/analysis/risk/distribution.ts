/** A sample in figures. Sums run in the order of the sample, so that the same sample gives the same digits. */
export interface Distribution {
  readonly count: number;
  readonly mean: number;
  /** With n − 1. */
  readonly standardDeviation: number;
  /** Of the mean: standard deviation / √n. */
  readonly standardError: number;
  readonly lowest: number;
  readonly highest: number;
  readonly quantiles: readonly { readonly share: number; readonly value: number }[];
  /** Mean of the worst twentieth. */
  readonly worstTwentieth: number;
}

export const QUANTILES = [0.01, 0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95, 0.99] as const;

/** Undefined for an empty sample. */
export function distributionOf(sample: readonly number[]): Distribution | undefined {
  const count = sample.length;
  if (count === 0) return undefined;
  const mean = sumOf(sample) / count;
  const spread = sumOf(sample.map((value) => (value - mean) ** 2));
  const standardDeviation = count > 1 ? Math.sqrt(spread / (count - 1)) : 0;
  const sorted = [...sample].sort((a, b) => a - b);
  const worst = sorted.slice(0, Math.max(1, Math.floor(count / 20)));
  return {
    count,
    mean,
    standardDeviation,
    standardError: standardDeviation / Math.sqrt(count),
    lowest: sorted[0],
    highest: sorted[count - 1],
    quantiles: QUANTILES.map((share) => ({ share, value: quantileOf(sorted, share) })),
    worstTwentieth: sumOf(worst) / worst.length,
  };
}

/**
 * Quantile of a sorted sample, linear between the order statistics: definition 7 of Hyndman and Fan, "Sample
 * quantiles in statistical packages" (1996), h = (n − 1)·p.
 */
export function quantileOf(sorted: readonly number[], share: number): number {
  const place = (sorted.length - 1) * share;
  const below = Math.floor(place);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below] + (place - below) * (sorted[above] - sorted[below]);
}

/** How often and by how much a sample falls below a level; by how much on average over all of it. */
export function shortfallBelow(sample: readonly number[], level: number): { share: number; mean: number } {
  const below = sample.filter((value) => value < level);
  return {
    share: below.length / sample.length,
    mean: sumOf(below.map((value) => level - value)) / sample.length,
  };
}

function sumOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
