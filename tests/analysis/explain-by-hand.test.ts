import { beforeAll, describe, expect, it } from 'vitest';
import { explainConflict } from '../../src/analysis/conflict/explain-conflict.js';
import { explainPlan } from '../../src/analysis/explain/explain-plan.js';
import type { Rent } from '../../src/analysis/explain/explanation.js';
import type { LimitKind } from '../../src/analysis/limits/plan-limit.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { loadSolver, type Solver } from '../../src/solver/choose.js';
import { planOf, presentValueOf, tinyScenario } from '../planning/tiny-plant.js';

let solver: Solver;
beforeAll(async () => {
  solver = await loadSolver();
});

async function rentOf(scenario: Scenario, kind: LimitKind): Promise<Rent> {
  const explanation = explainPlan(await planOf(scenario), solver);
  const rent = explanation?.rents.find(({ limit }) => limit.kind === kind);
  if (rent === undefined) throw new Error(`no rent of ${kind}`);
  return rent;
}

/** A contract on the tires themselves. */
function ofTires(id: string, price: number, monthly: { min: number; max: number }, termMin: number) {
  return {
    id,
    buyer: `Buyer of ${id}`,
    materials: ['tires'],
    from: '2027-02-01',
    to: '2027-02-28',
    price,
    monthly,
    term: { min: termMin },
    shortfall: { charge: 10, termCharge: 50 },
  };
}

function onlyTires(contracts: readonly ReturnType<typeof ofTires>[]): Scenario {
  const base = tinyScenario();
  return tinyScenario({
    feeds: [{ ...base.feeds[0], tippingFee: 0, available: 160 }],
    // Shredding never pays.
    steps: [{ ...base.steps[0], wear: 1000 }],
    contracts: [...contracts],
  });
}

describe('plans and rents with arithmetic', () => {
  it('never counts delivered tonnes as missed, in a second contract neither when the first is told', async () => {
    // 160 t: 60 to a at 0, 100 to b at 30 = 3000; a misses 40 of its term's 100 at 50 = 2000: 1000.
    const monthly = { min: 40, max: 100 };
    const scenario = onlyTires([ofTires('a', 0, monthly, 100), ofTires('b', 30, monthly, 100)]);
    expect(await presentValueOf(scenario)).toBeCloseTo(1000, 9);
  });

  it('a maximum is worth what a tonne above it brings, also where the month is told not to be short', async () => {
    // 80 t at 100, 120 of the term's 200 missed at 50. A tonne more is paid 100 and missed no more: 150.
    const scenario = onlyTires([ofTires('a', 100, { min: 40, max: 80 }, 200)]);
    const more = onlyTires([ofTires('a', 100, { min: 40, max: 81 }, 200)]);
    expect((await presentValueOf(more)) - (await presentValueOf(scenario))).toBeCloseTo(150, 9);
    const { oneMore, oneLess } = await rentOf(scenario, 'contractMaximum');
    expect(oneMore).toBeCloseTo(150, 9);
    expect(oneLess).toBeCloseTo(150, 9);
  });

  it('a committed tonne less saves its landfill and loses the fee of committed tonnes', async () => {
    // Nothing is shredded at 200 of wear. A tonne at the fee of 50 goes to landfill at 60: 10 lost; committed for
    // nothing it loses 60.
    const base = tinyScenario();
    const of = (committed: number) =>
      tinyScenario({
        steps: [{ ...base.steps[0], wear: 200 }],
        feeds: [{ ...base.feeds[0], committed, committedFee: 0 }],
      });
    expect((await presentValueOf(of(50))) - (await presentValueOf(of(49)))).toBeCloseTo(-60, 9);
    const { oneMore, oneLess } = await rentOf(of(50), 'feedCommitted');
    expect(oneMore).toBeCloseTo(-60, 9);
    expect(oneLess).toBeCloseTo(-60, 9);
  });

  it('a machine-hour is worth the same under both bases of a demand charge that is nothing', async () => {
    // An hour shreds a tonne: 94, less a crew-hour at 1 = 93.
    const base = tinyScenario();
    for (const basis of ['average', 'connected'] as const) {
      const scenario = tinyScenario({
        operation: { ...base.operation, demand: { charge: 0, basis } },
        crews: [{ id: 'gang', people: 1, wage: 1, staffing: 'hourly' }],
        machines: [{ id: 'shredder', crew: 'gang' }],
      });
      const { oneMore, oneLess } = await rentOf(scenario, 'machineHours');
      expect(oneMore, basis).toBeCloseTo(93, 9);
      expect(oneLess, basis).toBeCloseTo(93, 9);
    }
  });

  it('no range is told of a fee to which haulers respond: it moves what can be had', async () => {
    // Of 30 t at 50 an elasticity of −1.5 leaves 26 at 55: any move of the fee changes the plan.
    const base = tinyScenario();
    const feed = { ...base.feeds[0], available: 30 };
    const kinds = async (scenario: Scenario) =>
      explainPlan(await planOf(scenario), solver)?.firmness.map(({ number }) => number.kind) ?? [];
    expect(await kinds(tinyScenario({ feeds: [feed] }))).toContain('tippingFee');
    const responding = { ...feed, response: { elasticity: -1.5, at: 50 } };
    const others = await kinds(tinyScenario({ feeds: [responding] }));
    expect(others).not.toContain('tippingFee');
    expect(others).toContain('outletPrice');
  });

  it('the peak is not set in a window without hours', async () => {
    const base = tinyScenario();
    const scenario = tinyScenario({
      steps: [{ ...base.steps[0], energy: 100 }],
      operation: {
        windows: [
          { id: 'a-night', days: ['sun'], from: '00:00', to: '06:00', powerPrice: 0.1 },
          ...base.operation.windows,
        ],
        closed: ['2027-02-07', '2027-02-14', '2027-02-21', '2027-02-28'],
        demand: { charge: 1, basis: 'connected' },
      },
    });
    const { plan } = await planOf(scenario);
    expect(plan.months[0].energy.peakWindow).toBe('day');
  });
});

it('fixed costs in another order make the same plan to the last digit', async () => {
  // 0.1 + 0.2 + 0.3 and 0.3 + 0.2 + 0.1 differ in the last place.
  const fixedCosts = [0.1, 0.2, 0.3].map((perMonth, i) => ({ name: `cost ${i}`, perMonth }));
  const [one, other] = await Promise.all(
    [fixedCosts, fixedCosts.toReversed()].map((costs) => planOf(tinyScenario({ fixedCosts: costs }))),
  );
  expect(one.plan.statement).toEqual(other.plan.statement);
});

describe('conflicts with arithmetic', () => {
  const contract = (id: string, min: number) => ({
    id,
    buyer: `Buyer of ${id}`,
    materials: ['shred'],
    from: '2027-02-01',
    to: '2027-02-28',
    price: 30,
    monthly: { min },
  });

  it('a limit that nothing can come near hides no conflict', () => {
    // 32 t of shred can be made; 32.06 are promised.
    const scenario = tinyScenario({
      outlets: [
        { id: 'kiln', material: 'shred', price: 30, limit: 1e6 },
        { id: 'scrap', material: 'steel', price: 100 },
      ],
      contracts: [contract('a', 16.03), contract('b', 16.03)],
    });
    const { conflict, repair } = explainConflict(derivePlant(scenario), solver);
    const kinds = (conflict ?? []).map(({ limit }) => limit.kind).sort();
    expect(kinds).toEqual(['contractMinimum', 'contractMinimum', 'machineHours']);
    const given = repair?.gives.reduce((sum, { by }) => sum + by, 0);
    expect(given).toBeCloseTo(0.06, 6);
  });

  it.each(['hourly', 'by the shift', 'by the month'] as const)(
    'hours give before a minimum that weighs more, with a crew %s',
    (staffing) => {
      // 35 t of shred need 43.75 h of 40: 3.75 machine-hours, and of a crew with days one more of 10 h.
      const scenario = tinyScenario({
        crews: [{ id: 'gang', people: 1, wage: 1, staffing }],
        machines: [{ id: 'shredder', crew: 'gang' }],
        contracts: [contract('a', 35)],
        repair: { weights: { contractMinimum: 1000, machineHours: 1, crewHours: 1 } },
      });
      const { repair } = explainConflict(derivePlant(scenario), solver);
      const kinds = (repair?.gives ?? []).map(({ limit }) => limit.kind).sort();
      expect(kinds).toEqual(staffing === 'hourly' ? ['machineHours'] : ['crewHours', 'machineHours']);
      const hours = repair?.gives.find(({ limit }) => limit.kind === 'machineHours');
      expect(hours?.by).toBeCloseTo(3.75, 6);
      expect(repair?.planned?.plan.certificate.accepted).toBe(true);
    },
  );
});
