import type { RateBasis } from '../../src/scenario/schema/figures.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { mapFigures } from './map-figures.js';

/** No rate of a generated scenario is above this, in currency per mass unit, whatever its basis. */
export function largestRate(scenario: Scenario): number {
  let largest = 0;
  mapFigures(scenario, {
    rate: (rate) => {
      const perMassUnit =
        typeof rate === 'number' ? Math.abs(rate) : Math.abs(rate.amount) * MOST_PER_MASS_UNIT[rate.per];
      largest = Math.max(largest, perMassUnit);
      return rate;
    },
  });
  return largest;
}

/** Upper bounds: tires of at least 5 kg, at most 40 MJ/kg. */
const MOST_PER_MASS_UNIT: Readonly<Record<RateBasis, number>> = {
  tonne: 1,
  'short ton': 1.2,
  kg: 1000,
  lb: 2205,
  tire: 200,
  GJ: 40,
  MMBtu: 40,
};
