import { expect, test } from 'vitest';
import { derivePlant } from '../../src/plant/derive-plant.js';
import type { Plant } from '../../src/plant/plant.js';
import { generateScenario } from '../generate/plant.js';
import { inOtherMassUnit } from '../generate/plant-in-other-unit.js';

const KILOGRAMS = { tonne: 1000, 'short ton': 907.18474 } as const;

/** What a plant takes, makes and costs in an hour, a month and by kg: figures that no mass unit is in. */
function figuresWithoutUnit(plant: Plant): number[] {
  const kilograms = KILOGRAMS[plant.units.mass];
  const masses = [
    ...plant.feeds.flatMap(({ committed, others }) => [...committed, ...others]),
    ...plant.steps.flatMap(({ throughput }) => throughput),
    ...plant.outlets.flatMap(({ tiers }) => tiers.flatMap(({ width }) => width)),
    ...plant.contracts.flatMap(({ monthlyMin, monthlyMax, termMin = 0, termMax = 0 }) => [
      ...monthlyMin,
      ...monthlyMax,
      termMin,
      termMax,
    ]),
  ];
  const rates = [
    ...plant.feeds.flatMap(({ fee, committedFee, haulage }) => [...fee, ...committedFee, ...haulage]),
    ...plant.steps.flatMap(({ energy, wear }) => [...energy, ...wear]),
    ...plant.outlets.flatMap(({ tiers, freight, packing }) => [
      ...tiers.flatMap(({ price }) => price),
      ...freight,
      ...packing,
    ]),
    ...plant.contracts.flatMap(({ price, shortfall }) => [
      ...Object.values(price).flat(),
      ...(shortfall === undefined ? [] : [...shortfall.charge, shortfall.termCharge]),
    ]),
    ...plant.disposals.flatMap(({ charge, haulage }) => [charge, haulage].flatMap(Object.values).flat()),
  ];
  return [...masses.map((mass) => mass * kilograms), ...rates.map((rate) => rate / kilograms)];
}

test.each([1, 2, 3, 4, 5, 6, 7, 8])(
  'generated plant %d is the same money and mass in the other unit',
  (seed) => {
    const scenario = generateScenario(seed, { months: 4 });
    const here = figuresWithoutUnit(derivePlant(scenario));
    const there = figuresWithoutUnit(derivePlant(inOtherMassUnit(scenario)));
    expect(there).toHaveLength(here.length);
    for (const [i, figure] of here.entries()) {
      if (Number.isFinite(figure))
        expect(Math.abs(there[i]! - figure)).toBeLessThanOrEqual(1e-9 * Math.abs(figure));
      else expect(there[i]).toBe(figure);
    }
  },
);
