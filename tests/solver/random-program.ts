import { ProgramBuilder } from '../../src/program/builder.js';
import type { LinearProgram } from '../../src/program/linear-program.js';

/** Numbers in [0, 1) from a seed; the same on every machine. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

export interface RandomOptions {
  readonly columns: number;
  readonly rows: number;
  /** Share of columns that are whole numbers. */
  readonly whole?: number;
  /** Chance of a row that the point drawn first does not satisfy. */
  readonly contradictions?: number;
  /** Rows and columns are measured in units that differ by up to this many powers of ten. */
  readonly decades?: number;
}

/**
 * A program with rows of every kind (≤, ≥, =, ranged, free) and columns of every kind (non-negative, boxed,
 * from above only, free, fixed), feasible at a point drawn first unless contradictions are asked for; now and
 * then unbounded. Whole numbers are boxed.
 */
export function randomProgram(seed: number, options: RandomOptions): LinearProgram<number, number> {
  const random = randomFrom(seed);
  const whole = (low: number, high: number) => low + Math.floor(random() * (high - low + 1));
  const unit = () => 10 ** whole(-(options.decades ?? 0), options.decades ?? 0);
  const builder = new ProgramBuilder<number, number>(random() < 0.5 ? 'maximize' : 'minimize');
  const point: number[] = [];
  const columnUnit: number[] = [];
  for (let j = 0; j < options.columns; j++) {
    const integer = random() < (options.whole ?? 0);
    columnUnit.push(integer ? 1 : unit());
    point.push(whole(0, 6));
    builder.column(j, {
      cost: whole(-9, 9) / columnUnit[j],
      ...scaledBounds(columnBounds(integer ? 0 : random(), point[j], whole), columnUnit[j]),
      integer,
    });
  }
  for (let i = 0; i < options.rows; i++) {
    const rowUnit = unit();
    const cells = new Map<number, number>();
    for (let k = 0; k < 4; k++)
      cells.set(whole(0, options.columns - 1), whole(1, 8) * (random() < 0.7 ? 1 : -1));
    let activity = 0;
    for (const [j, value] of cells) activity += value * point[j];
    if (random() < (options.contradictions ?? 0)) activity += whole(20, 90);
    const row = builder.row(i, scaledBounds(rowBounds(random(), activity, whole), rowUnit));
    for (const [j, value] of cells) builder.add(row, j, (value * rowUnit) / columnUnit[j]);
  }
  return builder.build();
}

/**
 * A feasible and bounded maximization whose rows hold three columns in ten, of every kind of row: what a
 * tableau's first phase finds hardest.
 */
export function denseProgram(seed: number, columns: number, rows: number): LinearProgram<number, number> {
  const random = randomFrom(seed);
  const whole = (low: number, high: number) => low + Math.floor(random() * (high - low + 1));
  const builder = new ProgramBuilder<number, number>('maximize');
  const point = Array.from({ length: columns }, (_, j) => {
    const at = whole(0, 5);
    const boxed = random() < 0.2;
    builder.column(j, { cost: whole(-3, 12), ...(boxed ? { upper: at + whole(0, 5) } : {}) });
    return at;
  });
  for (let i = 0; i < rows; i++) {
    const cells = point.map(() => (random() < 0.3 ? whole(-3, 7) : 0));
    const activity = cells.reduce((sum, value, j) => sum + value * point[j], 0);
    const row = builder.row(i, rowBounds(random(), activity, whole));
    for (const [j, value] of cells.entries()) builder.add(row, j, value);
  }
  const total = builder.row(rows, { upper: 300 + point.reduce((sum, at) => sum + at) });
  for (let j = 0; j < columns; j++) builder.add(total, j, 1);
  return builder.build();
}

type Whole = (low: number, high: number) => number;
interface Bounds {
  readonly lower: number;
  readonly upper: number;
}

function columnBounds(kind: number, at: number, whole: Whole): Bounds {
  if (kind < 0.6) return { lower: 0, upper: at + whole(0, 20) };
  if (kind < 0.78) return { lower: 0, upper: Number.POSITIVE_INFINITY };
  if (kind < 0.83) return { lower: Number.NEGATIVE_INFINITY, upper: Number.POSITIVE_INFINITY };
  if (kind < 0.88) return { lower: Number.NEGATIVE_INFINITY, upper: at + whole(0, 5) };
  if (kind < 0.95) return { lower: at - whole(0, 9), upper: at + whole(0, 9) };
  return { lower: at, upper: at };
}

function rowBounds(kind: number, at: number, whole: Whole): Bounds {
  if (kind < 0.6) return { lower: Number.NEGATIVE_INFINITY, upper: at + whole(0, 9) };
  if (kind < 0.75) return { lower: at - whole(0, 9), upper: Number.POSITIVE_INFINITY };
  if (kind < 0.85) return { lower: at, upper: at };
  if (kind < 0.95) return { lower: at - whole(0, 9), upper: at + whole(0, 9) };
  return { lower: Number.NEGATIVE_INFINITY, upper: Number.POSITIVE_INFINITY };
}

function scaledBounds(bounds: Bounds, unit: number): Bounds {
  return { lower: bounds.lower * unit, upper: bounds.upper * unit };
}
