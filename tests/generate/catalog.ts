import type { Material } from '../../src/scenario/schema/scenario.js';
import type { Range } from './random.js';

/** An invented material: assays and heating values inside published ranges, prices from no source. */
export interface CatalogEntry {
  readonly form: Material['form'];
  readonly tireMass?: number;
  /** MJ/kg */
  readonly heatingValue?: Range;
  /** Constituents, in order rubber, steel, fiber, dirt; they add up to 1. */
  readonly assay?: readonly [number, number, number, number];
  /** Currency per tonne at the best outlet; absent: only disposal. */
  readonly price?: Range;
  /** Mass that its outlets take together, as a share of the month's feed. */
  readonly demand?: Range;
}

/** Whole tires to powder, in the order of the ladder. All figures invented. */
export const CATALOG: Readonly<Record<string, CatalogEntry>> = {
  'car-tires': { form: 'whole', tireMass: 9.1, assay: [0.7, 0.15, 0.1, 0.05] },
  'truck-tires': { form: 'whole', tireMass: 45.4, assay: [0.7, 0.22, 0.03, 0.05] },
  'mixed-tires': { form: 'whole', tireMass: 14, assay: [0.7, 0.18, 0.07, 0.05] },
  buffings: { form: 'other', assay: [0.985, 0.002, 0.008, 0.005] },
  shred: {
    form: 'shred',
    heatingValue: [28, 30.5],
    assay: [0.72, 0.16, 0.09, 0.03],
    price: [8, 32],
    demand: [0.3, 0.7],
  },
  'car-shred': {
    form: 'shred',
    heatingValue: [28, 30.5],
    assay: [0.72, 0.15, 0.1, 0.03],
    price: [8, 30],
    demand: [0.2, 0.6],
  },
  'truck-shred': {
    form: 'shred',
    heatingValue: [26.5, 28.5],
    assay: [0.75, 0.2, 0.03, 0.02],
    price: [12, 34],
    demand: [0.1, 0.3],
  },
  chip: {
    form: 'chip',
    heatingValue: [29.5, 32],
    assay: [0.78, 0.12, 0.07, 0.03],
    price: [32, 62],
    demand: [0.15, 0.45],
  },
  'wire-free': {
    form: 'wire-free',
    heatingValue: [34, 36],
    assay: [0.975, 0.006, 0.015, 0.004],
    price: [95, 185],
    demand: [0.05, 0.25],
  },
  'dirty-wire': { form: 'steel', price: [15, 55], demand: [0.05, 0.2] },
  'clean-steel': { form: 'steel', price: [90, 190], demand: [0.15, 0.3] },
  fiber: { form: 'fiber', assay: [0.25, 0.03, 0.62, 0.1] },
  'granulate-coarse': {
    form: 'granulate',
    assay: [0.99, 0.002, 0.006, 0.002],
    price: [165, 270],
    demand: [0.06, 0.25],
  },
  'granulate-medium': {
    form: 'granulate',
    assay: [0.993, 0.001, 0.004, 0.002],
    price: [200, 330],
    demand: [0.05, 0.2],
  },
  'granulate-fine': {
    form: 'granulate',
    assay: [0.995, 0.0006, 0.0024, 0.002],
    price: [240, 390],
    demand: [0.05, 0.2],
  },
  'powder-coarse': {
    form: 'powder',
    assay: [0.9965, 0.0004, 0.0011, 0.002],
    price: [360, 620],
    demand: [0.03, 0.12],
  },
  'powder-fine': {
    form: 'powder',
    assay: [0.998, 0.0001, 0.0004, 0.0015],
    price: [520, 950],
    demand: [0.02, 0.08],
  },
  dust: { form: 'residue' },
  residue: { form: 'residue' },
};

export const CONSTITUENTS = ['rubber', 'steel', 'fiber', 'dirt'] as const;
