import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';

/** Φ(z), the standard normal distribution. */
export function cumulativeNormal(z: number): number {
  return normalCdf(z, 0, 1);
}

/** The z with Φ(z) = p, 0 < p < 1. */
export function standardNormal(p: number): number {
  return normalQuantile(p, 0, 1);
}
