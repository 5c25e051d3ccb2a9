import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { mapFigures } from './map-figures.js';
import { seededRandom } from './random.js';

export { withMoreCapacity } from './more-capacity.js';
export { withUnusedOption } from './unused-option.js';

/** All prices, fees, charges, wages, power, wear and fixed costs times `factor`; the margin scales with it. */
export function withMoneyScaled(scenario: Scenario, factor: number): Scenario {
  return mapFigures(scenario, {
    money: (figure) => figure * factor,
    rate: (rate) => (typeof rate === 'number' ? rate * factor : { ...rate, amount: rate.amount * factor }),
  });
}

/** Lists whose order means something: tiers by mass, decks by opening, responses by fee, values by month. */
const ORDERED = new Set(['tiers', 'decks', 'response', 'values']);

/** Every list of things with an id, every list of names, and the keys of every object in another order. */
export function withListsShuffled(scenario: Scenario, seed: number): Scenario {
  const random = seededRandom(seed, 'shuffle');
  const shuffle = (value: unknown, key: string): unknown => {
    if (Array.isArray(value)) {
      const entries = value.map((entry) => shuffle(entry, ''));
      return ORDERED.has(key) || isByMonth(value) ? entries : random.shuffled(entries);
    }
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(
      random.shuffled(Object.entries(value)).map(([name, entry]) => [name, shuffle(entry, name)]),
    );
  };
  return shuffle(scenario, '') as Scenario;
}

/** Figures and rates in a list are a series. */
function isByMonth(list: readonly unknown[]): boolean {
  return list.every((entry) => typeof entry === 'number' || isRate(entry));
}

function isRate(entry: unknown): boolean {
  return typeof entry === 'object' && entry !== null && 'amount' in entry;
}
