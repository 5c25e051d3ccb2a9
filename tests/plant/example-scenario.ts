import type { Scenario } from '../../src/scenario/schema/scenario.js';

/** A small invented plant that uses every block of the format once. */
export const EXAMPLE: Scenario = {
  format: 'cutpoint-scenario/1',
  title: 'Example plant (invented)',
  units: { mass: 'tonne', currency: 'EUR' },
  horizon: { firstMonth: '2027-01', months: 3 },
  discountRate: 0.08,
  operation: {
    closed: ['2027-01-01'],
    windows: [
      {
        id: 'day',
        days: ['mon', 'tue', 'wed', 'thu', 'fri'],
        from: '06:00',
        to: '14:00',
        powerPrice: 0.16,
      },
      {
        id: 'night',
        days: ['mon', 'tue', 'wed', 'thu', 'fri'],
        from: '22:00',
        to: '06:00',
        powerPrice: [0.1, 0.11, 0.12],
        wageFactor: 1.25,
      },
    ],
    demand: { charge: 11.5, basis: 'average', peakToAverage: 1.3, baseLoad: 20 },
  },
  materials: [
    {
      id: 'car-tires',
      form: 'whole',
      tireMass: 9.1,
      heatingValue: 32,
      assay: { rubber: 0.7, steel: 0.15, fiber: 0.1, dirt: 0.05 },
      stock: { capacity: 900, opening: 140, closing: { min: 100 }, holdingCost: 1.2 },
    },
    { id: 'shred', form: 'shred', heatingValue: 30 },
    { id: 'wire-free', form: 'wire-free' },
    { id: 'wire', form: 'steel' },
    { id: 'dust', form: 'residue' },
    { id: 'coarse', form: 'granulate' },
    { id: 'fine', form: 'powder' },
  ],
  feeds: [
    {
      id: 'dealers',
      material: 'car-tires',
      tippingFee: { amount: 1.9, per: 'tire' },
      committed: 300,
      available: 800,
      paymentDays: 30,
      response: { elasticity: -1.6, at: { amount: 1.9, per: 'tire' } },
    },
  ],
  crews: [{ id: 'line', people: 3, wage: 27, staffing: 'by the shift' }],
  machines: [
    { id: 'shredder', availability: 0.85, maintenanceHours: 12, crew: 'line' },
    { id: 'cleaner', crew: 'line' },
    { id: 'mill', count: 2, availability: 0.9 },
  ],
  steps: [
    {
      id: 'shredding',
      machine: 'shredder',
      input: 'car-tires',
      circuit: { passThroughput: 10, undersize: 0.5, screenEfficiency: 0.9 },
      energy: 20,
      wear: 3,
      yields: { shares: { shred: 1 } },
    },
    {
      id: 'cleaning',
      machine: 'cleaner',
      input: 'shred',
      throughput: 4,
      energy: 60,
      wear: 7,
      yields: {
        separation: {
          to: { 'wire-free': { rubber: 0.97, steel: 0.01 }, wire: { steel: 0.985, rubber: 0.02 } },
          remainder: 'dust',
        },
      },
    },
    {
      id: 'milling',
      machine: 'mill',
      input: 'wire-free',
      throughput: 2,
      energy: 90,
      wear: { amount: 0.01, per: 'kg' },
      yields: {
        sizing: {
          d63: 2.1,
          n: 1.3,
          decks: [
            { opening: 4, over: 'return', efficiency: 0.92 },
            { opening: 2, over: 'coarse', efficiency: 0.9 },
          ],
          under: 'fine',
          losses: { dust: 0.02 },
        },
      },
    },
  ],
  outlets: [
    {
      id: 'turf',
      material: 'coarse',
      tiers: [
        { upTo: 60, price: 210 },
        { upTo: 140, price: 190 },
      ],
      freight: 18,
      packing: 4,
    },
    { id: 'fine', material: 'fine', price: { amount: 0.19, per: 'lb' }, from: '2027-02-15', limit: 100 },
    { id: 'scrap', material: 'wire', price: 120 },
    { id: 'kiln', material: 'shred', price: { amount: 1.5, per: 'GJ' } },
  ],
  indices: [{ id: 'rubber', kind: 'price', base: 250, values: [250, 255, 300] }],
  contracts: [
    {
      id: 'mats',
      buyer: 'Mat maker (invented)',
      materials: ['wire-free'],
      from: '2027-02-01',
      to: '2028-01-31',
      price: { base: 195, index: 'rubber', passThrough: 0.6, floor: 150, ceiling: 220 },
      monthly: { min: 40, max: 80 },
      term: { min: 500, max: 900, delivered: 0 },
      shortfall: { charge: 35, termCharge: 50 },
      quality: [{ measure: 'steel', max: 0.005 }],
      freight: 22,
      packing: 4,
      paymentDays: 45,
    },
  ],
  disposals: [{ id: 'landfill', materials: ['dust'], charge: 88, haulage: 9 }],
  fixedCosts: [{ name: 'Lease', perMonth: 21000 }],
};
