import { describe, expect, it } from 'vitest';
import { distributionOf, quantileOf } from '../../../src/analysis/risk/distribution.js';
import { drawFactors, expectedFactor } from '../../../src/analysis/risk/draw-factors.js';
import { cumulativeNormal, standardNormal } from '../../../src/analysis/risk/normal.js';
import type { Uncertainty } from '../../../src/scenario/schema/scenario.js';

const target = (distribution: Uncertainty['distribution'], rest: Partial<Uncertainty> = {}): Uncertainty => ({
  target: '/outlets/turf/price',
  distribution,
  ...rest,
});

const DISTRIBUTIONS: readonly Uncertainty['distribution'][] = [
  { kind: 'lognormal', sigma: 0.2 },
  { kind: 'normal', sigma: 0.1 },
  { kind: 'uniform', low: 0.7, high: 1.2 },
  { kind: 'triangular', low: 0.8, mode: 1, high: 1.15 },
];

/** Standard deviations by the textbook formulas (from memory). */
const DEVIATIONS = [
  Math.sqrt(Math.exp(0.2 ** 2) - 1),
  0.1,
  0.5 / Math.sqrt(12),
  Math.sqrt((0.8 ** 2 + 1 + 1.15 ** 2 - 0.8 * 1 - 0.8 * 1.15 - 1 * 1.15) / 18),
];

describe('draws', () => {
  it.each(DISTRIBUTIONS.map((distribution, i) => [distribution.kind, distribution, DEVIATIONS[i]] as const))(
    'of %s have its mean and its standard deviation',
    (_, distribution, deviation) => {
      const count = 20_000;
      const factors = drawFactors([target(distribution)], 1, 11, count).map(([[factor]]) => factor);
      const sample = distributionOf(factors)!;
      expect(Math.abs(sample.mean - expectedFactor(distribution))).toBeLessThan(
        4 * (deviation / Math.sqrt(count)),
      );
      expect(sample.standardDeviation / deviation).toBeCloseTo(1, 1);
    },
  );

  it('of one group move as one, with a correlation as far as it says, of none not at all', () => {
    const normal = { kind: 'normal', sigma: 0.1 } as const;
    const targets = [
      target(normal, { group: 'rubber' }),
      target(normal, { group: 'rubber' }),
      target(normal, { group: 'rubber', correlation: 0.6 }),
      target(normal),
    ];
    const draws = drawFactors(targets, 1, 3, 20_000).map((draw) => draw.map(([factor]) => factor));
    const correlation = (a: number, b: number) => {
      const [x, y] = [a, b].map((k) => draws.map((draw) => (draw[k] - 1) / 0.1));
      return x.reduce((sum, value, i) => sum + value * y[i], 0) / x.length;
    };
    expect(draws.every(([a, b]) => a === b)).toBe(true);
    expect(correlation(0, 2)).toBeCloseTo(0.6, 1);
    expect(correlation(0, 3)).toBeCloseTo(0, 1);
  });

  it('of each month differ from month to month, of a whole series are one', () => {
    const normal = { kind: 'normal', sigma: 0.1 } as const;
    const [draw] = drawFactors([target(normal, { eachMonth: true }), target(normal)], 3, 5, 1);
    expect(draw.map((own) => new Set(own).size)).toEqual([3, 1]);
  });

  it('of the same seed are the same, and more of them begin with the same ones', () => {
    const targets = [target(DISTRIBUTIONS[0]), target(DISTRIBUTIONS[3])];
    expect(drawFactors(targets, 2, 9, 20).slice(0, 10)).toEqual(drawFactors(targets, 2, 9, 10));
    expect(drawFactors(targets, 2, 9, 10)).not.toEqual(drawFactors(targets, 2, 10, 10));
  });
});

describe('the normal distribution', () => {
  /** NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1, cumulative distribution (0 to z, plus a half). */
  it.each([
    [0.5, 0.69146],
    [1, 0.84134],
    [1.96, 0.975],
    [2.5, 0.99379],
  ])('has Φ(%f) = %f', (z, share) => {
    expect(cumulativeNormal(z)).toBeCloseTo(share, 5);
    expect(standardNormal(cumulativeNormal(z))).toBeCloseTo(z, 10);
  });
});

describe('a quantile', () => {
  /** R's default, type 7: quantile(c(1, 2, 4, 8), c(.25, .5, .9)) is 1.75, 3, 6.8 (from memory of the definition). */
  it('is linear between the order statistics', () => {
    expect([0.25, 0.5, 0.9].map((share) => quantileOf([1, 2, 4, 8], share))).toEqual([
      1.75,
      3,
      expect.closeTo(6.8, 12),
    ]);
  });
});
