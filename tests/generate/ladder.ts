import type { Range } from './random.js';

/** A step to be drawn: figures per tonne of input; `main` takes what the others leave. All invented. */
export interface StepTemplate {
  readonly id: string;
  readonly machine: string;
  readonly input: string;
  readonly main: string;
  readonly others: Readonly<Record<string, Range>>;
  /** Tonnes per machine-hour. */
  readonly throughput: Range;
  /** kWh per tonne. */
  readonly energy: Range;
  /** Currency per tonne. */
  readonly wear: Range;
  /** Chance that a plant leaves it out. */
  readonly absent?: number;
}

type Row = [
  id: string,
  machine: string,
  input: string,
  main: string,
  others: Record<string, Range>,
  throughput: Range,
  energy: Range,
  wear: Range,
  absent?: number,
];

/** Whole tire to powder in at most five steps. Every input comes after the step that first makes it. */
export const SMALL_LADDER = templates([
  ['shred-car', 'shredder', 'car-tires', 'shred', { residue: [0.01, 0.05] }, [7, 12], [20, 32], [3, 6]],
  [
    'shred-truck',
    'shredder',
    'truck-tires',
    'shred',
    { 'dirty-wire': [0.04, 0.1], residue: [0.01, 0.03] },
    [5, 9],
    [26, 40],
    [4, 8],
  ],
  [
    'rasp',
    'rasper',
    'shred',
    'wire-free',
    { 'dirty-wire': [0.14, 0.2], fiber: [0.05, 0.1] },
    [3.5, 6.5],
    [50, 80],
    [7, 12],
  ],
  [
    'granulate',
    'granulator',
    'wire-free',
    'granulate-coarse',
    { 'granulate-fine': [0.25, 0.4], fiber: [0.01, 0.04] },
    [2.5, 4],
    [80, 130],
    [9, 15],
  ],
  [
    'granulate-finer',
    'granulator',
    'wire-free',
    'granulate-fine',
    { 'granulate-coarse': [0.1, 0.25], fiber: [0.01, 0.04] },
    [1.8, 3],
    [110, 160],
    [11, 18],
    0.4,
  ],
  [
    'mill',
    'mill',
    'granulate-fine',
    'powder-coarse',
    { dust: [0.01, 0.04] },
    [0.6, 1.4],
    [240, 340],
    [16, 26],
    0.4,
  ],
]);

/** The full ladder: two settings of the rasper, the granulator and the mill, and wire that goes back as chip. */
export const FULL_LADDER = templates([
  ['shred-car', 'shredder', 'car-tires', 'car-shred', { residue: [0.01, 0.04] }, [8, 13], [20, 30], [3, 6]],
  [
    'shred-truck',
    'shredder',
    'truck-tires',
    'truck-shred',
    { 'dirty-wire': [0.04, 0.1], residue: [0.01, 0.03] },
    [5, 9],
    [26, 40],
    [4, 8],
  ],
  [
    'shred-mixed',
    'shredder',
    'mixed-tires',
    'car-shred',
    { 'truck-shred': [0.3, 0.45], residue: [0.03, 0.07] },
    [6, 10],
    [24, 34],
    [4, 8],
    0.2,
  ],
  ['chip-car', 'chipper', 'car-shred', 'chip', { residue: [0.005, 0.02] }, [6, 9], [30, 42], [5, 8]],
  [
    'chip-truck',
    'chipper',
    'truck-shred',
    'chip',
    { 'dirty-wire': [0.03, 0.08] },
    [4.5, 7],
    [34, 50],
    [6, 10],
  ],
  [
    'rasp',
    'rasper',
    'chip',
    'wire-free',
    { 'dirty-wire': [0.13, 0.19], fiber: [0.05, 0.1] },
    [4, 6.5],
    [50, 75],
    [7, 11],
  ],
  [
    'rasp-clean',
    'rasper',
    'chip',
    'wire-free',
    { 'dirty-wire': [0.12, 0.16], fiber: [0.06, 0.1], 'granulate-coarse': [0.04, 0.12] },
    [3, 5],
    [65, 95],
    [9, 14],
    0.2,
  ],
  [
    'clean-wire',
    'wire-cleaner',
    'dirty-wire',
    'clean-steel',
    { chip: [0.03, 0.12], fiber: [0.01, 0.04] },
    [1.5, 3],
    [25, 45],
    [3, 7],
  ],
  [
    'granulate',
    'granulator',
    'wire-free',
    'granulate-coarse',
    { 'granulate-medium': [0.22, 0.34], 'granulate-fine': [0.06, 0.12], fiber: [0.01, 0.03] },
    [2.6, 4],
    [80, 120],
    [9, 14],
  ],
  [
    'granulate-finer',
    'granulator',
    'wire-free',
    'granulate-medium',
    { 'granulate-coarse': [0.1, 0.2], 'granulate-fine': [0.18, 0.3], fiber: [0.01, 0.03] },
    [2, 3.2],
    [100, 150],
    [11, 17],
  ],
  [
    'regranulate',
    'granulator',
    'granulate-coarse',
    'granulate-medium',
    { 'granulate-fine': [0.25, 0.4], dust: [0.005, 0.02] },
    [2, 3],
    [70, 100],
    [8, 12],
    0.2,
  ],
  [
    'mill',
    'mill',
    'granulate-medium',
    'powder-coarse',
    { 'powder-fine': [0.06, 0.15], dust: [0.01, 0.04] },
    [0.8, 1.4],
    [220, 310],
    [14, 22],
  ],
  [
    'mill-finer',
    'mill',
    'granulate-fine',
    'powder-fine',
    { 'powder-coarse': [0.25, 0.4], dust: [0.02, 0.05] },
    [0.5, 1],
    [300, 420],
    [20, 32],
    0.2,
  ],
  [
    'mill-buffings',
    'mill',
    'buffings',
    'powder-coarse',
    { 'powder-fine': [0.1, 0.2], dust: [0.01, 0.03] },
    [0.9, 1.5],
    [200, 280],
    [12, 20],
    0.3,
  ],
]);

function templates(rows: readonly Row[]): readonly StepTemplate[] {
  return rows.map(([id, machine, input, main, others, throughput, energy, wear, absent]) => ({
    id,
    machine,
    input,
    main,
    others,
    throughput,
    energy,
    wear,
    ...(absent === undefined ? {} : { absent }),
  }));
}
