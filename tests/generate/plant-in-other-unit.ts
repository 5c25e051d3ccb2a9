import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { KILOGRAMS } from './figures.js';
import { mapFigures } from './map-figures.js';

/** The same plant in the other mass unit: it has the same present value. Rates that name their basis stay. */
export function inOtherMassUnit(scenario: Scenario): Scenario {
  const mass = scenario.units.mass === 'tonne' ? 'short ton' : 'tonne';
  const old = KILOGRAMS[scenario.units.mass];
  const now = KILOGRAMS[mass];
  const rewritten = mapFigures(scenario, {
    mass: (figure) => (figure * old) / now,
    energy: (figure) => (figure * now) / old,
    rate: (rate) => (typeof rate === 'number' ? (rate * now) / old : rate),
  });
  return { ...rewritten, units: { ...scenario.units, mass } };
}
