import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Uncertainty } from '../../scenario/schema/scenario.js';
import { cumulativeNormal, standardNormal } from './normal.js';

/** Factors of every draw: [draw][target in the order given][month, or one for the whole series]. */
export type DrawFactors = readonly (readonly (readonly number[])[])[];

/** The smallest step of the uniform numbers: stands for 0, whose normal quantile is infinite. */
const LEAST = 2 ** -54;

/**
 * Draws factors for uncertain numbers, all from one generator (xoroshiro128+) in a fixed order: draw by draw, in
 * each the common numbers of the groups by id, then the targets in the order given. With z standard normal and
 * Φ its distribution:
 *
 *     lognormal exp(σz − σ²/2),  normal 1 + σz,  uniform and triangular by their quantile at Φ(z)
 *
 * z of a target in a group is ρ·(the group's z) + √(1−ρ²)·(its own), ρ its correlation, 1 if absent.
 */
export function drawFactors(
  targets: readonly Uncertainty[],
  months: number,
  seed: number,
  count: number,
): DrawFactors {
  const generator = xoroshiro128plus(seed);
  const z = () => standardNormal(Math.max(uniformFloat64(generator), LEAST));
  const groups = [...new Set(targets.flatMap(({ group }) => group ?? []))].sort();
  const isByMonth = targets.some(({ eachMonth }) => eachMonth === true);
  return Array.from({ length: count }, () => {
    const common = new Map(
      groups.map((group) => [group, { whole: z(), byMonth: isByMonth ? many(months, z) : [] }]),
    );
    return targets.map((target) => {
      const own = many(target.eachMonth === true ? months : 1, z);
      const shared = target.group === undefined ? undefined : common.get(target.group);
      const rho = target.correlation ?? 1;
      return own.map((mine, t) => {
        if (shared === undefined) return factorAt(target.distribution, mine);
        const group = target.eachMonth === true ? shared.byMonth[t] : shared.whole;
        return factorAt(target.distribution, rho * group + Math.sqrt(1 - rho * rho) * mine);
      });
    });
  });
}

/** The factor that stands at z. */
export function factorAt(distribution: Uncertainty['distribution'], z: number): number {
  switch (distribution.kind) {
    case 'lognormal':
      return Math.exp(distribution.sigma * z - distribution.sigma ** 2 / 2);
    case 'normal':
      return 1 + distribution.sigma * z;
    case 'uniform':
      return distribution.low + (distribution.high - distribution.low) * cumulativeNormal(z);
    case 'triangular':
      return triangularAt(distribution, cumulativeNormal(z));
  }
}

/** The expected factor. */
export function expectedFactor(distribution: Uncertainty['distribution']): number {
  switch (distribution.kind) {
    case 'lognormal':
    case 'normal':
      return 1;
    case 'uniform':
      return (distribution.low + distribution.high) / 2;
    case 'triangular':
      return (distribution.low + distribution.mode + distribution.high) / 3;
  }
}

/** Quantile of the triangular distribution. */
function triangularAt(
  { low, mode, high }: { readonly low: number; readonly mode: number; readonly high: number },
  p: number,
): number {
  if (high === low) return low;
  const turn = (mode - low) / (high - low);
  return p <= turn
    ? low + Math.sqrt(p * (high - low) * (mode - low))
    : high - Math.sqrt((1 - p) * (high - low) * (high - mode));
}

function many(count: number, draw: () => number): number[] {
  return Array.from({ length: count }, draw);
}
