import { expect, it } from 'vitest';
import type { Contract, Scenario } from '../../src/scenario/schema/scenario.js';
import { linearPlanOf, paidByTheHour, planOf, shippedScenario } from './shipped.js';

const scenario = paidByTheHour(shippedScenario('twelve-months'));

it('one offer is to be taken: the best plan with it is worth more', async () => {
  expect(await gainOf(offer('play-barns'))).toBeGreaterThan(0);
});

it('one offer is to be declined, although its price is above the best spot price of the month', async () => {
  const far = offer('far-compounder');
  const { plant } = await linearPlanOf('twelve-months');
  const spot = plant.outlets.filter(({ material }) => far.materials.includes(material));
  const { base } = far.price as { base: number };
  expect(base).toBeGreaterThan(Math.max(...spot.map(({ tiers }) => tiers[0].price[0])));
  expect(await gainOf(far)).toBeLessThan(0);
  expect(await gainOf({ ...far, monthly: { min: 1, max: 1 } })).toBeLessThan(0);
  const { ceiling } = far.price as { ceiling: number };
  expect(await gainOf({ ...far, price: ceiling })).toBeLessThan(0);
});

it('one offer is to be countered: it pays above a higher price, or at a smaller volume', async () => {
  const fender = offer('fender-maker');
  expect(await gainOf(fender)).toBeLessThan(0);
  expect(await gainOf({ ...fender, price: (fender.price as number) * 1.05 })).toBeGreaterThan(0);
  expect(await gainOf({ ...fender, monthly: { min: 40, max: 40 } })).toBeGreaterThan(0);
});

function offer(id: string): Contract {
  return scenario.offers!.find((each) => each.id === id)!;
}

/** Present value of the best plan with the offer signed less that without it. */
async function gainOf(signed: Contract): Promise<number> {
  const changed: Scenario = { ...scenario, contracts: [...scenario.contracts!, signed], offers: [] };
  const value = (planned: Awaited<ReturnType<typeof planOf>>) => planned.answer.plan.statement.presentValue;
  return value(await planOf(changed, 'highs')) - value(await linearPlanOf('twelve-months'));
}
