import { planMonths } from '../../src/analysis/monthly-plan.js';
import type { PlannedAnswer } from '../../src/analysis/plan-answer.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import { type Scenario, scenarioSchema } from '../../src/scenario/schema/scenario.js';
import type { EngineChoice } from '../../src/solver/choose.js';
import { solverFor } from '../solver/solver-for.js';

/**
 * A plant small enough for arithmetic on paper. February 2027 has four of each weekday, so the one window,
 * Mondays from 06:00 to 16:00, has 40 hours. Tires come at a fee of 50, at most 100 t; the shredder takes
 * 1 t/h and makes 0.8 shred and 0.2 steel; shred sells at 30, steel at 100, whole tires are landfilled at 60.
 */
export function tinyScenario(changes: Partial<Scenario> = {}): Scenario {
  return scenarioSchema.parse({
    format: 'cutpoint-scenario/1',
    title: 'Tiny',
    units: { mass: 'tonne', currency: 'EUR' },
    horizon: { firstMonth: '2027-02', months: 1 },
    operation: { windows: [{ id: 'day', days: ['mon'], from: '06:00', to: '16:00', powerPrice: 0.1 }] },
    materials: [
      { id: 'shred', form: 'shred', heatingValue: 30 },
      { id: 'steel', form: 'steel' },
      { id: 'tires', form: 'whole', tireMass: 10 },
    ],
    feeds: [{ id: 'yard', material: 'tires', tippingFee: 50, available: 100 }],
    machines: [{ id: 'shredder' }],
    steps: [
      {
        id: 'shredding',
        machine: 'shredder',
        input: 'tires',
        throughput: 1,
        yields: { shares: { shred: 0.8, steel: 0.2 } },
      },
    ],
    outlets: [
      { id: 'kiln', material: 'shred', price: 30 },
      { id: 'scrap', material: 'steel', price: 100 },
    ],
    disposals: [{ id: 'landfill', materials: ['tires'], charge: 60 }],
    ...changes,
  });
}

/** The plan of a scenario; an answer without a plan fails the test. */
export async function planOf(scenario: Scenario, engine: EngineChoice = 'highs'): Promise<PlannedAnswer> {
  const answer = planMonths(derivePlant(scenario), await solverFor(engine));
  if (!('plan' in answer)) throw new Error(`no plan: ${JSON.stringify(answer)}`);
  return answer;
}

/** The present value of a scenario on both engines, which must agree. */
export async function presentValueOf(scenario: Scenario): Promise<number> {
  const first = await planOf(scenario, 'highs');
  const second = await planOf(scenario, 'javascript-lp-solver');
  const [a, b] = [first, second].map(({ plan }) => plan.statement.presentValue);
  if (Math.abs(a - b) > 1e-9 * Math.max(1, first.plan.statement.scale)) throw new Error(`${a} is not ${b}`);
  return a;
}
