import { expect, it } from 'vitest';
import { planMonths } from '../../src/analysis/monthly-plan.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import { solverFor } from '../solver/solver-for.js';
import { planOf, presentValueOf, tinyScenario } from './tiny-plant.js';

// Every figure below is worked out by hand in the comment above it.

it('processes up to the hours and declines the rest', async () => {
  // A tonne through the shredder: 50 + 0.8·30 + 0.2·100 = 94; to the landfill: 50 − 60 = −10, so it is declined.
  // 40 h at 1 t/h: 40 · 94 = 3760.
  expect(await presentValueOf(tinyScenario())).toBeCloseTo(3760, 9);
});

it('lands committed tonnes that the hours do not reach', async () => {
  // 70 t must come: 40 · 94 + 30 · (50 − 60) = 3760 − 300 = 3460.
  const feeds = [{ id: 'yard', material: 'tires', tippingFee: 50, available: 100, committed: 70 }];
  expect(await presentValueOf(tinyScenario({ feeds }))).toBeCloseTo(3460, 9);
});

it('values tires, hours, shred and steel by what one more brings', async () => {
  const { plan, solved } = await planOf(tinyScenario());
  const worth = Object.fromEntries(plan.worth.map((entry) => [entry.material, entry.byMonth[0]]));
  // Tires are there for the taking (declined at −10 … +94): one more in the yard changes nothing that the fee
  // does not: it displaces one that pays 50, so its worth is −50. An hour more: 94.
  expect(worth).toEqual({ shred: 30, steel: 100, tires: -50 });
  const hour = solved.formulation.program.rowKeys.findIndex((key) => key.kind === 'machine');
  expect(solved.rowDual[hour]).toBeCloseTo(94, 9);
});

it('fills tiers from the dearest down and stops where a tonne no longer pays', async () => {
  // Shred: 10 t at 30, the next 10 t at 20; further ones bring 30 − 170 = −140 far away, which the tonne of tires
  // behind it does not carry: (50 + 0.8 · −140 + 20) < 0. So 20 t shred = 25 t tires.
  // 25 · 50 + 10 · 30 + 10 · 20 + 5 · 100 = 1250 + 300 + 200 + 500 = 2250.
  const outlets = [
    {
      id: 'kiln',
      material: 'shred',
      tiers: [
        { upTo: 10, price: 30 },
        { upTo: 20, price: 20 },
      ],
    },
    { id: 'far', material: 'shred', price: 30, freight: 170 },
    { id: 'scrap', material: 'steel', price: 100 },
  ];
  expect(await presentValueOf(tinyScenario({ outlets }))).toBeCloseTo(2250, 9);
});

it('pays power, wear, freight, packing, haulage and fixed costs', async () => {
  // A tonne: fee 50 − haulage 5 − power 20 kWh · 0.1 − wear 3 + 0.8 · (30 − 4 − 1) + 0.2 · 100
  //        = 50 − 5 − 2 − 3 + 20 + 20 = 80; 40 t: 3200; less fixed 700: 2500.
  const base = tinyScenario();
  const scenario = tinyScenario({
    feeds: [{ ...base.feeds[0], haulage: 5 }],
    steps: [{ ...base.steps[0], energy: 20, wear: 3 }],
    outlets: [
      { id: 'kiln', material: 'shred', price: 30, freight: 4, packing: 1 },
      { id: 'scrap', material: 'steel', price: 100 },
    ],
    fixedCosts: [{ name: 'rent', perMonth: 700 }],
  });
  expect(await presentValueOf(scenario)).toBeCloseTo(2500, 9);
});

it('calls whole shifts and only those that pay', async () => {
  // A crew of 2 at 27 by the shift of 10 h: 540 a shift. A shift shreds 10 t: 10 · 94 − 540 = 400; 4 days: 1600.
  // With at most 32 t there are three full shifts and 2 t left: 188 for 540 is not called: 3 · 400 = 1200.
  const crews = [{ id: 'gang', people: 2, wage: 27, staffing: 'by the shift' as const }];
  const machines = [{ id: 'shredder', crew: 'gang' }];
  expect(await presentValueOf(tinyScenario({ crews, machines }))).toBeCloseTo(1600, 9);
  const feeds = [{ id: 'yard', material: 'tires', tippingFee: 50, available: 32 }];
  const { plan } = await planOf(tinyScenario({ crews, machines, feeds }));
  expect(plan.statement.presentValue).toBeCloseTo(1200, 9);
  expect(plan.months[0].crews[0].windows[0].shifts).toBe(3);
});

it('pays hourly crews for the hours that they attend, over machines at once', async () => {
  // Two machines at availability 0.5 are one machine's hours: 40 h. Attended 40 / (2 · 0.5) = 40 h · 3 people · 10
  // = 1200: 3760 − 1200 = 2560.
  const crews = [{ id: 'gang', people: 3, wage: 10, staffing: 'hourly' as const }];
  const machines = [{ id: 'shredder', count: 2, availability: 0.5, crew: 'gang' }];
  expect(await presentValueOf(tinyScenario({ crews, machines }))).toBeCloseTo(2560, 9);
});

it('opens a window by the month or not at all', async () => {
  // 40 h · 2 · 27 = 2160 < 3760: open, 1600. At a wage of 50: 40 · 2 · 50 = 4000 > 3760: shut, nothing received: 0.
  const machines = [{ id: 'shredder', crew: 'gang' }];
  const crew = { id: 'gang', people: 2, wage: 27, staffing: 'by the month' as const };
  expect(await presentValueOf(tinyScenario({ crews: [crew], machines }))).toBeCloseTo(1600, 9);
  expect(await presentValueOf(tinyScenario({ crews: [{ ...crew, wage: 50 }], machines }))).toBeCloseTo(0, 9);
});

it('charges the peak of the average load', async () => {
  // 100 kWh/t at 1 t/h is 100 kW at full use, times 1.2, plus 10 kW base: 130 kW at 5 = 650; power 100 · 0.1 = 10 a
  // tonne: 40 · (94 − 10) − 650 = 2710.
  const base = tinyScenario();
  const scenario = tinyScenario({
    steps: [{ ...base.steps[0], energy: 100 }],
    operation: { ...base.operation, demand: { charge: 5, peakToAverage: 1.2, baseLoad: 10 } },
  });
  expect(await presentValueOf(scenario)).toBeCloseTo(2710, 9);
  // At 100 a kW a tonne costs 3 kW more a tonne (120/40): 300 > 84; nothing runs; the base load is still charged.
  const dear = {
    ...scenario,
    operation: { ...scenario.operation, demand: { charge: 100, baseLoad: 10, peakToAverage: 1.2 } },
  };
  expect(await presentValueOf(dear)).toBeCloseTo(-1000, 9);
});

it('charges the connected load as soon as a crew attends', async () => {
  // Rated 100 kW whether 1 t runs or 40. Only 5 t come: 5 · 84 = 420 less wages 5 h · 10 = 50 less 100 kW · 2 = 200:
  // 170, less 10 kW base · 2 = 20: 150.
  const base = tinyScenario();
  const scenario = tinyScenario({
    feeds: [{ ...base.feeds[0], available: 5 }],
    crews: [{ id: 'gang', people: 1, wage: 10, staffing: 'hourly' }],
    machines: [{ id: 'shredder', crew: 'gang' }],
    steps: [{ ...base.steps[0], energy: 100 }],
    operation: { ...base.operation, demand: { charge: 2, basis: 'connected', baseLoad: 10 } },
  });
  expect(await presentValueOf(scenario)).toBeCloseTo(150, 9);
  // At 5 a kW the 100 kW cost 500 > 370: stays off; base 50.
  const dear = {
    ...scenario,
    operation: { ...scenario.operation, demand: { charge: 5, basis: 'connected' as const, baseLoad: 10 } },
  };
  expect(await presentValueOf(dear)).toBeCloseTo(-50, 9);
});

const contract = {
  id: 'cement',
  buyer: 'Cement works',
  materials: ['shred'],
  from: '2027-02-01',
  to: '2027-02-28',
  price: 10,
};

it('delivers a hard minimum against the spot market', async () => {
  // 32 t shred; 12 t must go at 10 instead of 30: 3760 − 12 · 20 = 3520.
  const contracts = [{ ...contract, monthly: { min: 12 } }];
  expect(await presentValueOf(tinyScenario({ contracts }))).toBeCloseTo(3520, 9);
});

it('pays the shortfall where that is cheaper than delivering', async () => {
  // Missing costs 15 a tonne, delivering loses 20: misses 12 t: 3760 − 180 = 3580.
  const contracts = [{ ...contract, monthly: { min: 12 }, shortfall: { charge: 15 } }];
  const { plan } = await planOf(tinyScenario({ contracts }));
  expect(plan.statement.presentValue).toBeCloseTo(3580, 9);
  expect(plan.months[0].contracts[0]).toMatchObject({ missed: 12, delivered: 0, shortfallCharge: 180 });
});

it('prorates a month that a contract is in force for part of', async () => {
  // 7 of 28 days: a quarter of 12 = 3 t · 20 less: 3760 − 60 = 3700.
  const contracts = [{ ...contract, monthly: { min: 12 }, from: '2027-02-22' }];
  expect(await presentValueOf(tinyScenario({ contracts }))).toBeCloseTo(3700, 9);
});

it('sells to a contract up to its maximum where it pays more', async () => {
  // 10 t at 40 instead of 30: 3760 + 100 = 3860.
  const contracts = [{ ...contract, price: 40, monthly: { max: 10 } }];
  expect(await presentValueOf(tinyScenario({ contracts }))).toBeCloseTo(3860, 9);
});

it('serves the expected call or pays for what is missed', async () => {
  // Called 10 t at 10: delivering loses 20, missing costs 25: delivers: 3760 − 200 = 3560.
  const contracts = [
    { ...contract, call: { by: 'buyer' as const, expected: 10 }, shortfall: { charge: 25 } },
  ];
  expect(await presentValueOf(tinyScenario({ contracts }))).toBeCloseTo(3560, 9);
});

it('charges a term shortfall once, and at the term charge', async () => {
  // Monthly minimum 5, term minimum 12; missing in the month costs 15, for the term 18, delivering loses 20.
  // Of the 12: 5 at most can be missed in the month (15 each), 7 for the term (18 each): 75 + 126 = 201.
  const contracts = [
    { ...contract, monthly: { min: 5 }, term: { min: 12 }, shortfall: { charge: 15, termCharge: 18 } },
  ];
  expect(await presentValueOf(tinyScenario({ contracts }))).toBeCloseTo(3760 - 201, 9);
});

it('never counts a delivered tonne as missed to save on the term charge', async () => {
  // The contract pays 31, so its minimum of 5 is delivered (+1 each); at most 5 can be (maximum). The term asks 12.
  // Declaring the 5 missed at 1 each would fill the term cheaply; the truth: deliver 5 (+5), 7 missed for the term
  // at 18 = 126; or miss 5 in the month (−5) and 7 for the term (−126). Best: 3760 + 5 − 126 = 3639.
  const contracts = [
    {
      ...contract,
      price: 31,
      monthly: { min: 5, max: 5 },
      term: { min: 12 },
      shortfall: { charge: 1, termCharge: 18 },
    },
  ];
  expect(await presentValueOf(tinyScenario({ contracts }))).toBeCloseTo(3639, 9);
});

it('blends within a quality limit by mass', async () => {
  // Heating value at least 28: shred 30 and tires 24 blend 2 : 1. The contract pays 200 for up to 30 t of either.
  // 20 t shred and 10 t tires: 25 t tires shredded, 5 t steel.
  // Receipts: 30 · 200 + 5 · 100 + fees. The other 15 h shred 15 t: 12 t shred at 30, 3 t steel.
  // Fees (25 + 10 + 15) · 50 = 2500; 6000 + 500 + 360 + 300 + 2500 = 9660.
  const base = tinyScenario();
  const scenario = tinyScenario({
    materials: [base.materials[0], base.materials[1], { ...base.materials[2], heatingValue: 24 }],
    contracts: [
      {
        ...contract,
        materials: ['shred', 'tires'],
        price: 200,
        monthly: { max: 30 },
        quality: [{ measure: 'heatingValue', min: 28 }],
      },
    ],
  });
  expect(await presentValueOf(scenario)).toBeCloseTo(9660, 9);
});

it('carries stock to the month that pays for it, within room and opening and closing', async () => {
  // February and March 2027; March has five Mondays (1, 8, 15, 22, 29): 50 h.
  // Tires only come in February, at most 100: 40 are shredded, the yard holds 30 (room 30), so 70 are received.
  // March shreds 30. 70 · 94 = 6580, holding 30 · 1 = 30: 6550.
  const base = tinyScenario();
  const scenario = tinyScenario({
    horizon: { firstMonth: '2027-02', months: 2 },
    materials: [
      base.materials[0],
      base.materials[1],
      { ...base.materials[2], stock: { capacity: 30, opening: 0, holdingCost: 1 } },
    ],
    feeds: [{ ...base.feeds[0], available: [100, 0] }],
  });
  expect(await presentValueOf(scenario)).toBeCloseTo(6550, 9);
});

it('values the change in stock and keeps the closing minimum', async () => {
  // Opening 10 in the yard, closing at least 25 at a value of 20 a tonne: 15 more are received (50 each) and
  // 15 · 20 = 300 booked; filling the yard pays 50 + 20 a tonne, so it is filled to its room of 40:
  // 30 · 70 + 3760 = 5860.
  const base = tinyScenario();
  const stock = { capacity: 40, opening: 10, closing: { min: 25, value: 20 } };
  const materials = [base.materials[0], base.materials[1], { ...base.materials[2], stock }];
  expect(await presentValueOf(tinyScenario({ materials }))).toBeCloseTo(5860, 9);
});

it('counts money on the day it is paid', async () => {
  // Rate 10 % a year; the month ends on day 28; fees and sales come 30 days later, on day 58.
  // A tonne: (50 + 24 + 20) · 1.1^(−58/365), 40 t.
  const base = tinyScenario();
  const late = { paymentDays: 30 };
  const scenario = tinyScenario({
    discountRate: 0.1,
    feeds: [{ ...base.feeds[0], ...late }],
    outlets: base.outlets?.map((outlet) => ({ ...outlet, ...late })),
    fixedCosts: [{ name: 'rent', perMonth: 100 }],
  });
  const expected = 3760 * 1.1 ** (-58 / 365) - 100 * 1.1 ** (-28 / 365);
  const { plan } = await planOf(scenario);
  expect(plan.statement.presentValue).toBeCloseTo(expected, 9);
  expect(plan.statement.margin).toBeCloseTo(3660, 9);
  // Nothing is received in February; rent is paid; the receipts come after the horizon.
  expect(plan.cash).toEqual([
    { month: '2027-02', receipts: 0, payments: -100, net: -100, balance: -100 },
    { receipts: 3760, payments: 0, net: 3760, balance: 3660 },
  ]);
});

it('receives what haulers bring at the fee', async () => {
  // Elasticity −2 from 20 others at 40: at 50 come 20 · (50/40)^−2 = 12.8, and 10 committed at 45 of their own.
  // 22.8 t · 44 (shred and steel) + 10 · 45 + 12.8 · 50 = 1003.2 + 450 + 640 = 2093.2.
  const feeds = [
    {
      id: 'yard',
      material: 'tires',
      tippingFee: 50,
      committedFee: 45,
      committed: 10,
      available: 30,
      response: { elasticity: -2, at: 40 },
    },
  ];
  expect(await presentValueOf(tinyScenario({ feeds }))).toBeCloseTo(2093.2, 9);
});

it('shares a permit limit and a landfill limit', async () => {
  // 75 t must come; the landfill takes 20, the hours 40, the yard (permit 15 together with shred) the other 15.
  // 75 · 50 + 40 · 44 − 20 · 60 = 3750 + 1760 − 1200 = 4310.
  const base = tinyScenario();
  const scenario = tinyScenario({
    materials: [
      { ...base.materials[0], stock: { closing: { min: 0 } } },
      base.materials[1],
      { ...base.materials[2], stock: { closing: { min: 0 } } },
    ],
    stores: [{ id: 'permit', materials: ['shred', 'tires'], capacity: 15 }],
    feeds: [{ ...base.feeds[0], committed: 75, available: 75 }],
    disposals: [{ id: 'landfill', materials: ['tires'], charge: 60, limit: 20 }],
  });
  expect(await presentValueOf(scenario)).toBeCloseTo(4310, 9);
  const over = { ...scenario, feeds: [{ ...base.feeds[0], committed: 76, available: 76 }] };
  expect(planMonths(derivePlant(over), await solverFor('auto')).status).toBe('infeasible');
});

it('takes the plan with the fewest machine-hours among equals', async () => {
  // A second setting shreds as well but at half the throughput; only 10 t come, hours are plenty for either.
  const base = tinyScenario();
  const scenario = tinyScenario({
    feeds: [{ ...base.feeds[0], available: 10 }],
    steps: [{ ...base.steps[0], id: 'a-slow-setting', throughput: 0.5 }, base.steps[0]],
  });
  for (const engine of ['highs', 'javascript-lp-solver'] as const) {
    const { plan } = await planOf(scenario, engine);
    expect(plan.months[0].machines[0].hours).toBeCloseTo(10, 9);
  }
});

it('reports the ladder by tonnes of tire, and the rest adds up to the margin', async () => {
  const { plan } = await planOf(tinyScenario());
  const [rung] = plan.ladder.total;
  // 40 t of tires leave as 32 t shred: fee 2000, shred 960, steel at its worth 8 · 100.
  expect(rung).toMatchObject({
    material: 'shred',
    mass: 32,
    tippingFee: 2000,
    price: 960,
    byProducts: 800,
    net: 3760,
  });
  expect(rung.tires).toBeCloseTo(40, 9);
  // The steel was sold at its worth and is counted in the rung: its receipts are the rest that remains, none.
  expect(plan.ladder.rest[0]).toBeCloseTo(0, 9);
});
