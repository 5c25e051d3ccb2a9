import fc from 'fast-check';
import { expect, test } from 'vitest';
import { closes } from '../../src/plant/assay.js';
import { checkAssays } from '../../src/plant/checks/assays.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import { massDifference, stepBalance } from '../../src/plant/step-balance.js';
import { draftOf } from '../../src/scenario/draft.js';
import type { Scenario, Step } from '../../src/scenario/schema/scenario.js';
import { EXAMPLE } from './example-scenario.js';

const CONSTITUENTS = ['rubber', 'steel', 'fiber', 'dirt', 'moisture'] as const;
const share = fc.double({ min: 0, max: 1, noNaN: true });

/** Shares of five constituents that add up to 1. */
const assay = fc
  .array(fc.double({ min: 0.001, max: 1, noNaN: true }), { minLength: 5, maxLength: 5 })
  .map((weights) => {
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    return Object.fromEntries(CONSTITUENTS.map((constituent, i) => [constituent, weights[i]! / total]));
  });

/** Recoveries to two outputs, at most 1 together. */
const recoveries = fc.tuple(
  fc.array(share, { minLength: 5, maxLength: 5 }),
  fc.array(share, { minLength: 5, maxLength: 5 }),
);

const separation = recoveries.map(([first, split]) => (stage: number, input: string): Step => {
  const of = (recovery: (i: number) => number) =>
    Object.fromEntries(CONSTITUENTS.map((constituent, i) => [constituent, recovery(i)]));
  return {
    id: `stage-${stage}`,
    machine: 'mill',
    input,
    throughput: 1,
    yields: {
      separation: {
        to: {
          [`main-${stage}`]: of((i) => first[i]!),
          [`other-${stage}`]: of((i) => (1 - first[i]!) * split[i]!),
        },
        remainder: `rest-${stage}`,
      },
    },
  };
});

const sizing = fc
  .record({
    d63: fc.double({ min: 0.3, max: 8, noNaN: true }),
    n: fc.double({ min: 0.6, max: 3, noNaN: true }),
    openings: fc.uniqueArray(fc.double({ min: 0.1, max: 8, noNaN: true }), { minLength: 2, maxLength: 2 }),
    efficiencies: fc.tuple(
      fc.double({ min: 0.3, max: 1, noNaN: true }),
      fc.double({ min: 0.3, max: 1, noNaN: true }),
    ),
    returned: fc.boolean(),
    loss: fc.double({ min: 0, max: 0.3, noNaN: true }),
  })
  .map(({ d63, n, openings, efficiencies, returned, loss }) => (stage: number, input: string): Step => {
    const [coarse, fine] = openings.sort((a, b) => b - a) as [number, number];
    return {
      id: `stage-${stage}`,
      machine: 'mill',
      input,
      throughput: 1,
      yields: {
        sizing: {
          d63,
          n,
          decks: [
            { opening: coarse, over: returned ? 'return' : `other-${stage}`, efficiency: efficiencies[0] },
            { opening: fine, over: `main-${stage}`, efficiency: efficiencies[1] },
          ],
          under: `rest-${stage}`,
          losses: { [`loss-${stage}`]: loss },
        },
      },
    };
  });

/** A chain in which the main output of each stage is the input of the next. */
const chain = fc
  .tuple(assay, fc.array(fc.oneof(separation, sizing), { minLength: 1, maxLength: 4 }))
  .map(([tires, stages]): Scenario => {
    const steps = stages.map((stage, i) => stage(i, i === 0 ? 'tires' : `main-${i - 1}`));
    const ids = stages.flatMap((_, i) => ['main', 'other', 'rest', 'loss'].map((kind) => `${kind}-${i}`));
    return {
      ...EXAMPLE,
      horizon: { firstMonth: '2027-01', months: 1 },
      operation: { windows: [{ id: 'day', days: ['mon'], from: '06:00', to: '14:00', powerPrice: 0 }] },
      materials: [
        { id: 'tires', form: 'whole', assay: tires },
        ...ids.map((id) => ({ id, form: 'other' as const })),
      ],
      feeds: [{ id: 'feed', material: 'tires', tippingFee: 1, available: 1 }],
      crews: [],
      machines: [{ id: 'mill' }],
      steps,
      outlets: [],
      indices: [],
      contracts: [],
      disposals: [{ id: 'all', materials: ['tires', ...ids], charge: 1 }],
      fixedCosts: [],
    };
  })
  .filter((scenario) => checkAssays(draftOf(scenario)).length === 0);

test('mass closes to 1e-9 in every step, in total and by constituent, over 1,000 generated chains', () => {
  let balances = 0;
  fc.assert(
    fc.property(chain, (scenario) => {
      const plant = derivePlant(scenario);
      for (const step of plant.steps) {
        expect(Math.abs(massDifference(step))).toBeLessThan(1e-9);
        for (const { share: part, assay: made } of step.yields) {
          if (part > 0) expect(closes(made!)).toBe(true);
        }
        const rows = stepBalance(plant, step);
        expect(rows).toHaveLength(CONSTITUENTS.length);
        for (const { difference } of rows) expect(Math.abs(difference)).toBeLessThan(1e-9);
        balances += rows.length;
      }
    }),
    { seed: 20270101, numRuns: 1000 },
  );
  expect(balances).toBeGreaterThan(5 * 1000);
});
