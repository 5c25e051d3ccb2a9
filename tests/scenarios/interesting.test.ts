import { describe, expect, it } from 'vitest';
import { dualsOf, linearPlanOf, type Planned, SHIPPED } from './shipped.js';

/** Money by mass or hour below which a rent is none. */
const NO_RENT = 0.01;

describe.each(SHIPPED)('%s', (name) => {
  it('sells at four rungs and more in one month', async () => {
    const { plan } = (await linearPlanOf(name)).answer;
    const forms = plan.ladder.months.map((rungs) => rungs.filter(({ mass }) => mass > 1).length);
    expect(Math.max(...forms)).toBeGreaterThanOrEqual(4);
    const powder = plan.ladder.total.filter(({ material }) => material.startsWith('powder'));
    expect(powder.length).toBeGreaterThan(0);
  });

  it('holds a contract minimum against the spot market', async () => {
    const planned = await linearPlanOf(name);
    expect(minimaAgainstSpot(planned)).not.toEqual([]);
  });

  it('has machines that are not the bottleneck, and one that is', async () => {
    const planned = await linearPlanOf(name);
    const rents = dualsOf(planned, 'machine');
    const most = (machine: string) =>
      Math.max(...rents.filter(({ key }) => key.machine === machine).map(({ dual }) => dual));
    const idle = planned.plant.machines.filter(({ id }) => most(id) < NO_RENT);
    expect(idle.length).toBeGreaterThanOrEqual(2);
    expect(planned.plant.machines.some(({ id }) => most(id) > 1)).toBe(true);
  });

  it('does not make powder of everything: mill hours, or the prices of powder from tier to tier', async () => {
    const planned = await linearPlanOf(name);
    const { plant, answer } = planned;
    const millRents = dualsOf(planned, 'machine').filter(({ key }) => key.machine === 'mill');
    const months = plant.months.map(({ index }) => {
      const full = millRents.some(({ key, dual }) => key.month === index && dual > NO_RENT);
      return full || belowFirstTier(planned, index);
    });
    expect(months.every(Boolean)).toBe(true);
    const sold = (form: string) =>
      answer.plan.ladder.total
        .filter(({ material }) => plant.materials.find(({ id }) => id === material)?.form === form)
        .reduce((sum, { tires }) => sum + tires, 0);
    expect(sold('powder')).toBeGreaterThan(0);
    expect(sold('granulate')).toBeGreaterThan(sold('powder') / 4);
  });
});

it('both settings of the mill are used, and the mix changes over the year', async () => {
  const { plan } = (await linearPlanOf('twelve-months')).answer;
  const milled = (step: string) =>
    plan.months.map(({ steps }) => steps.find((use) => use.step === step)?.mass ?? 0);
  const narrow = milled('mill-narrow');
  const wide = milled('mill-wide');
  expect(narrow.some((mass) => mass > 1)).toBe(true);
  expect(wide.some((mass) => mass > 1)).toBe(true);
  expect(narrow.some((mass, month) => mass > 1 !== narrow[0] > 1 || wide[month] > 1 !== wide[0] > 1)).toBe(
    true,
  );
});

it('the permit of the yard binds in the season', async () => {
  const rents = dualsOf(await linearPlanOf('twelve-months'), 'store');
  expect(rents.filter(({ key }) => key.store === 'yard').some(({ dual }) => dual > NO_RENT)).toBe(true);
});

it('a limit of quality binds in the fuel contract', async () => {
  const rents = dualsOf(await linearPlanOf('twelve-months'), 'quality');
  expect(rents.some(({ key, dual }) => key.contract === 'kiln' && Math.abs(dual) > NO_RENT)).toBe(true);
});

/** Contract minima whose rent is negative while an outlet takes the same material at a better net price. */
function minimaAgainstSpot(planned: Planned): string[] {
  const { plant, answer } = planned;
  return dualsOf(planned, 'contractMinimum').flatMap(({ key, dual }) => {
    const month = key.month as number;
    const contract = plant.contracts.find(({ id }) => id === key.contract)!;
    const delivered = answer.plan.months[month].contracts.find((each) => each.contract === contract.id);
    if (dual > -NO_RENT || delivered === undefined || delivered.missed > 0) return [];
    const net = (material: string) =>
      contract.price[material][month] - contract.freight[material][month] - contract.packing[material][month];
    const better = plant.outlets.filter(
      ({ material, tiers, freight, packing }) =>
        contract.materials.includes(material) &&
        tiers[0].price[month] - freight[month] - packing[month] > net(material),
    );
    return better.length > 0 ? [`${contract.id} ${month}`] : [];
  });
}

/** Whether some powder is sold below the first price of its outlet, or its first tier is sold out. */
function belowFirstTier({ plant, answer }: Planned, month: number): boolean {
  const powders = plant.materials.filter(({ form }) => form === 'powder').map(({ id }) => id);
  return answer.plan.months[month].sales.some(
    ({ material, tiers }) =>
      powders.includes(material) && tiers.length > 1 && tiers[0].mass >= (tiers[0].width ?? Infinity) - 1e-6,
  );
}
