import { beforeAll, describe, expect, it } from 'vitest';
import { bridge, type Effect } from '../../../src/analysis/comparison/bridge.js';
import { planMonths } from '../../../src/analysis/monthly-plan.js';
import { readVariant } from '../../../src/analysis/variant/read-variant.js';
import type { Scenario } from '../../../src/scenario/schema/scenario.js';
import { loadSolver, type Solver } from '../../../src/solver/choose.js';
import { generateScenario } from '../../generate/plant.js';

describe('a bridge of margins', () => {
  let solver: Solver;
  beforeAll(async () => {
    solver = await loadSolver('highs');
  });

  const side = (document: unknown) => {
    const variant = readVariant(document);
    const answer = variant.ok ? planMonths(variant.plant, solver) : undefined;
    if (!variant.ok || answer?.status !== 'optimal') throw new Error('no plan');
    return { plant: variant.plant, plan: answer.plan };
  };
  const amounts = (before: Scenario, after: Scenario) => {
    const made = bridge(side(before), side(after));
    return {
      made,
      of: Object.fromEntries(made.effects.map(({ effect, amount }) => [effect, amount])) as Record<
        Effect,
        number
      >,
    };
  };

  it('adds up between any two plants, of other materials too', () => {
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const [before, after] = [seed, seed + 50].map((one) =>
        generateScenario(one, { months: 1 + (one % 3) }),
      );
      const { made } = amounts(before, after);
      const sum = made.effects.reduce((total, { amount }) => total + amount, made.from);
      const size = Math.max(Math.abs(made.from), Math.abs(made.to), 1);
      expect(Math.abs(sum - made.to) / size, `seed ${seed}`).toBeLessThan(1e-9);
    }
  });

  it('is nothing between a plant and itself', () => {
    const document = generateScenario(3, { months: 2 });
    const { of } = amounts(document, document);
    for (const amount of Object.values(of)) expect(amount).toBeCloseTo(0, 6);
  });

  it('has all of a dearer fixed cost under cost', () => {
    const document = {
      ...generateScenario(3, { months: 2 }),
      fixedCosts: [{ name: 'Lease', perMonth: 1000 }],
    };
    const { of } = amounts(document, { ...document, fixedCosts: [{ name: 'Lease', perMonth: 1500 }] });
    expect(of.cost).toBeCloseTo(-1000, 6);
    expect(of.price + of.volume + of.yield).toBeCloseTo(0, 6);
  });

  it('has a fee that rises on tonnes that stay under price, and a feed that goes under lost business', () => {
    const drawn = generateScenario(3, { months: 1, features: { response: false, otherBases: false } });
    const feeds = drawn.feeds.map((feed) => ({ ...feed, tippingFee: 900, committedFee: 900 }));
    const document = { ...drawn, feeds };
    const dearer = {
      ...document,
      feeds: feeds.map((feed) => ({ ...feed, tippingFee: 901, committedFee: 901 })),
    };
    const { of, made } = amounts(document, dearer);
    expect(of.price).toBeCloseTo(made.to - made.from, 6);
    const gone = { ...feeds[0], id: 'somebody-else', material: feeds[0].material };
    const swapped = amounts(document, { ...document, feeds: [gone, ...feeds.slice(1)] });
    expect(swapped.of['lost business']).toBeLessThan(0);
    expect(swapped.of['new business']).toBeCloseTo(-swapped.of['lost business'], 6);
  });
});
