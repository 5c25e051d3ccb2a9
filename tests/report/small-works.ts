import { planMonths } from '../../src/analysis/monthly-plan.js';
import { readPlantDocument } from '../../src/plant/read-plant.js';
import { type PlanDocument, type PlannedDocument, planDocument } from '../../src/report/plan-document.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { loadSolver } from '../../src/solver/choose.js';

/** A small invented plant with something to print in every section: three months, short tons, yen. */
export const SMALL_WORKS: Scenario = {
  format: 'cutpoint-scenario/1',
  title: 'Small works (invented)',
  units: { mass: 'short ton', currency: 'JPY' },
  horizon: { firstMonth: '2027-11', months: 3 },
  discountRate: 0.06,
  operation: {
    closed: ['2028-01-03'],
    windows: [
      {
        id: 'day',
        name: 'Day',
        days: ['mon', 'tue', 'wed', 'thu', 'fri'],
        from: '07:00',
        to: '15:00',
        powerPrice: 24,
      },
      {
        id: 'evening',
        name: 'Evening',
        days: ['mon', 'tue', 'wed', 'thu'],
        from: '15:00',
        to: '23:00',
        powerPrice: [18, 20, 21],
        wageFactor: 1.25,
      },
    ],
    demand: { charge: 1600, peakToAverage: 1.2, baseLoad: 15 },
  },
  materials: [
    {
      id: 'car-tires',
      name: 'Car tires',
      form: 'whole',
      tireMass: 9.1,
      assay: { rubber: 0.75, steel: 0.15, fiber: 0.1 },
      stock: { capacity: 400, opening: 60, closing: { min: 40 }, holdingCost: 90 },
    },
    { id: 'shred', name: 'Shred', form: 'shred', heatingValue: 31 },
    { id: 'wire-free', name: 'Wire-free rubber', form: 'wire-free' },
    { id: 'wire', name: 'Wire', form: 'steel' },
    { id: 'fluff', name: 'Fiber and dust', form: 'fiber' },
  ],
  stores: [{ id: 'yard', name: 'Yard', materials: ['car-tires'], capacity: 300 }],
  feeds: [
    {
      id: 'shops',
      name: 'Tire shops',
      material: 'car-tires',
      tippingFee: { amount: 210, per: 'tire' },
      haulage: 900,
      committed: 200,
      available: [420, 380, 360],
      paymentDays: 30,
    },
  ],
  crews: [{ id: 'line', name: 'Line crew', people: 3, wage: 2100, staffing: 'hourly' }],
  machines: [
    { id: 'shredder', name: 'Shredder', availability: 0.85, maintenanceHours: 8, crew: 'line' },
    { id: 'cleaner', name: 'Cleaner', availability: 0.9, crew: 'line' },
  ],
  steps: [
    {
      id: 'shredding',
      name: 'Shred',
      machine: 'shredder',
      input: 'car-tires',
      throughput: 3,
      energy: 28,
      wear: 450,
      yields: { shares: { shred: 1 } },
    },
    {
      id: 'cleaning',
      name: 'Free of wire',
      machine: 'cleaner',
      input: 'shred',
      throughput: 1.5,
      energy: 65,
      wear: 1200,
      yields: { shares: { 'wire-free': 0.74, wire: 0.16, fluff: 0.1 } },
    },
  ],
  outlets: [
    {
      id: 'grounds',
      name: '=Play "grounds", spot',
      material: 'wire-free',
      tiers: [
        { upTo: 40, price: 31000 },
        { upTo: 90, price: 24000 },
      ],
      freight: 1800,
      packing: 300,
      paymentDays: 15,
    },
    { id: 'kiln', name: 'Kiln, spot', material: 'shred', price: { amount: 190, per: 'GJ' }, freight: 700 },
    { id: 'scrap', name: 'Scrap yard', material: 'wire', price: 15000 },
  ],
  indices: [{ id: 'rubber', base: 30000, values: [30000, 31500, 33000] }],
  contracts: [
    {
      id: 'mats',
      name: 'Mats',
      buyer: 'Mat maker of Lowfield (invented)',
      materials: ['wire-free'],
      from: '2027-12-01',
      to: '2028-02-29',
      price: { base: 29000, index: 'rubber', passThrough: 0.5 },
      monthly: { min: 30, max: 60 },
      shortfall: { charge: 3500 },
      paymentDays: 45,
    },
    {
      id: 'sports',
      buyer: 'Sports halls (invented)',
      materials: ['wire-free'],
      from: '2027-11-01',
      to: '2028-01-31',
      price: 6000,
      call: { by: 'buyer', expected: [20, 25, 25] },
      shortfall: { charge: 600 },
    },
  ],
  disposals: [{ id: 'landfill', name: 'Landfill', materials: ['fluff'], charge: 9000, haulage: 800 }],
  fixedCosts: [{ name: 'Lease', perMonth: 900000 }],
};

/** The same works with whole shifts to call, for one month. */
export const SHIFT_WORKS: Scenario = {
  ...SMALL_WORKS,
  title: 'Small works by the shift (invented)',
  horizon: { firstMonth: '2027-12', months: 1 },
  operation: { ...SMALL_WORKS.operation, windows: [SMALL_WORKS.operation.windows[0]] },
  feeds: [{ ...SMALL_WORKS.feeds[0], available: 260 }],
  crews: [{ id: 'line', name: 'Line crew', people: 3, wage: 2100, staffing: 'by the shift' }],
  indices: [{ id: 'rubber', base: 30000, values: [31500] }],
  contracts: [SMALL_WORKS.contracts![0]],
};

/** The document of a scenario's plan, solved. */
export async function documentOf(scenario: unknown): Promise<PlanDocument> {
  const reading = readPlantDocument(scenario);
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  const answer = planMonths(reading.plant, await loadSolver());
  return planDocument(reading.plant, answer, { warnings: reading.warnings });
}

/** The same where there must be a plan. */
export async function plannedDocumentOf(scenario: unknown): Promise<PlannedDocument> {
  const document = await documentOf(scenario);
  if (document.status === 'infeasible' || document.status === 'no certified answer') {
    throw new Error(document.status);
  }
  return document;
}
