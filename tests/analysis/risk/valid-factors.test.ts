import { describe, expect, it } from 'vitest';
import { drawFactors, expectedFactor } from '../../../src/analysis/risk/draw-factors.js';
import { tiedTargets } from '../../../src/analysis/risk/tied-targets.js';
import { withFactors } from '../../../src/analysis/risk/uncertain-numbers.js';
import { validFactors } from '../../../src/analysis/risk/valid-factors.js';
import { readVariant } from '../../../src/analysis/variant/read-variant.js';
import type { Uncertainty } from '../../../src/scenario/schema/scenario.js';
import { tinyScenario } from '../../planning/tiny-plant.js';

/** An outlet whose second price must stay below its first. */
const base = tinyScenario({
  outlets: [
    {
      id: 'pile',
      material: 'shred',
      tiers: [
        { upTo: 10, price: 100 },
        { upTo: 20, price: 90 },
      ],
    },
    { id: 'scrap', material: 'steel', price: 100 },
  ],
});

const uniform = (target: string, low: number, high: number, group?: string): Uncertainty => ({
  target,
  distribution: { kind: 'uniform', low, high },
  ...(group === undefined ? {} : { group }),
});

function rangesOf(targets: readonly Uncertainty[]) {
  const factors = drawFactors(targets, 1, 5, 200);
  const centre = targets.map(({ distribution }) => [expectedFactor(distribution)]);
  return { factors, ranges: validFactors({ base, targets, factors, centre }) };
}

describe('the factors between which a draw is taken for valid', () => {
  it('are all that are drawn, where the scenario passes its checks at every pair of their ends', () => {
    const targets = [
      uniform('/outlets/pile/tiers/0/price', 0.96, 1.2),
      uniform('/outlets/pile/tiers/1/price', 0.8, 1.05),
    ];
    const { factors, ranges } = rangesOf(targets);
    for (const draw of factors) {
      draw.forEach(([factor], k) => {
        expect(factor).toBeGreaterThanOrEqual(ranges[k][0]);
        expect(factor).toBeLessThanOrEqual(ranges[k][1]);
      });
    }
  });

  it('never reach a scenario that fails them, where each number alone does not but two of them do', () => {
    const both = [
      uniform('/outlets/pile/tiers/0/price', 0.93, 1.07),
      uniform('/outlets/pile/tiers/1/price', 0.93, 1.07),
    ];
    // The numbers in front of the two, and between them, change which digits tell the two apart.
    const other = uniform('/feeds/0/available', 0.9, 1.1);
    for (const targets of [
      both,
      [other, ...both],
      [both[0], other, both[1]],
      [other, both[0], other, both[1]],
    ]) {
      const { factors, ranges } = rangesOf(targets);
      const inside = factors.filter((draw) =>
        draw.every(([factor], k) => factor >= ranges[k][0] && factor <= ranges[k][1]),
      );
      expect(inside.length).toBeGreaterThan(10);
      for (const draw of inside) expect(readVariant(withFactors(base, targets, draw)).ok).toBe(true);
      expect(factors.some((draw) => !readVariant(withFactors(base, targets, draw)).ok)).toBe(true);
    }
  });

  it('move together where their numbers do: prices that fall as one never cross', () => {
    const tied = ['0', '1'].map((tier) => uniform(`/outlets/pile/tiers/${tier}/price`, 0.5, 1.5, 'prices'));
    expect(tiedTargets(tied)).toEqual([[0, 1]]);
    const { factors, ranges } = rangesOf(tied);
    const drawn = factors.map(([[factor]]) => factor);
    expect(ranges).toEqual([0, 1].map(() => [Math.min(...drawn), Math.max(...drawn)]));
  });
});

describe('tied targets', () => {
  it('share a group, all of its draw, and one distribution', () => {
    const target = { ...uniform('/a', 0.5, 1.5, 'g') };
    expect(tiedTargets([target, { ...target, target: '/b' }])).toEqual([[0, 1]]);
    expect(tiedTargets([target, { ...target, correlation: 0.5 }])).toEqual([[0], [1]]);
    expect(tiedTargets([target, uniform('/b', 0.5, 1.4, 'g')])).toEqual([[0], [1]]);
    expect(tiedTargets([target, uniform('/b', 0.5, 1.5, 'h')])).toEqual([[0], [1]]);
    expect(tiedTargets([target, { ...target, eachMonth: true }])).toEqual([[0], [1]]);
    expect(tiedTargets([uniform('/a', 0.5, 1.5), uniform('/a', 0.5, 1.5)])).toEqual([[0], [1]]);
  });
});
