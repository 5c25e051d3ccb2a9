import { type Entries, eliminate } from './elimination.js';
import { eliminationOrder, rowCounts, type SparseColumn } from './elimination-order.js';

export type { SparseColumn } from './elimination-order.js';

/** Solves with a square sparse matrix B that has been factored once. Vectors are dense; a fresh one comes back. */
export interface SparseFactor {
  /** z with B z = a: `a` by row, `z` by column of B. */
  solve(a: Float64Array): Float64Array;
  /** y with Bᵀ y = c: `c` by column of B, `y` by row. */
  solveTransposed(c: Float64Array): Float64Array;
}

/** Share of the largest entry of a column that a pivot must have, so that rounding does not grow. */
const PIVOT_SHARE = 0.1;
/** An entry below it, relative to the largest of its column, is no pivot: the matrix is singular. */
const SINGULAR = 1e-11;

/**
 * Factors a square sparse matrix, P B Q = L U, column by column (left-looking, with row pivots that keep L
 * sparse). Columns are taken with the fewest entries first, which leaves a basis of a linear program nearly
 * triangular.
 *
 * @returns undefined where the matrix is singular to working precision.
 */
export function factorSparse(columns: readonly SparseColumn[]): SparseFactor | undefined {
  const size = columns.length;
  const order = eliminationOrder(columns);
  const rowUse = rowCounts(columns);
  const lower: Entries[] = [];
  const upper: Entries[] = [];
  const pivot = new Float64Array(size);
  const pivotRow = new Int32Array(size);
  const stepOfRow = new Int32Array(size).fill(-1);
  const work = new Float64Array(size);
  for (let step = 0; step < size; step++) {
    const column = columns[order[step]];
    const touched = scatter(column, work);
    const eliminated = eliminate(work, touched, lower, stepOfRow);
    const chosen = choosePivot(work, touched, stepOfRow, rowUse);
    if (chosen === undefined) return undefined;
    pivot[step] = work[chosen];
    pivotRow[step] = chosen;
    upper.push(eliminated);
    stepOfRow[chosen] = step;
    lower.push(below(work, touched, stepOfRow, pivot[step]));
    for (const row of touched) work[row] = 0;
  }
  return new Factor(order, pivotRow, pivot, lower, upper);
}

class Factor implements SparseFactor {
  constructor(
    private readonly order: Int32Array,
    private readonly pivotRow: Int32Array,
    private readonly pivot: Float64Array,
    /** By step: rows below the pivot, over the pivot. */
    private readonly lower: readonly Entries[],
    /** By step: earlier steps. */
    private readonly upper: readonly Entries[],
  ) {}

  solve(a: Float64Array): Float64Array {
    const { order, pivotRow, pivot, lower, upper } = this;
    const work = a.slice();
    const size = order.length;
    const stepped = new Float64Array(size);
    for (let step = 0; step < size; step++) {
      const value = work[pivotRow[step]];
      stepped[step] = value;
      if (value === 0) continue;
      const { at, values } = lower[step];
      for (let k = 0; k < at.length; k++) work[at[k]] -= values[k] * value;
    }
    const result = new Float64Array(size);
    for (let step = size - 1; step >= 0; step--) {
      if (stepped[step] === 0) continue;
      const value = stepped[step] / pivot[step];
      result[order[step]] = value;
      const { at, values } = upper[step];
      for (let k = 0; k < at.length; k++) stepped[at[k]] -= values[k] * value;
    }
    return result;
  }

  solveTransposed(c: Float64Array): Float64Array {
    const { order, pivotRow, pivot, lower, upper } = this;
    const size = order.length;
    const stepped = new Float64Array(size);
    for (let step = 0; step < size; step++) {
      let rest = c[order[step]];
      const { at, values } = upper[step];
      for (let k = 0; k < at.length; k++) rest -= values[k] * stepped[at[k]];
      stepped[step] = rest / pivot[step];
    }
    const result = new Float64Array(size);
    for (let step = size - 1; step >= 0; step--) {
      let value = stepped[step];
      const { at, values } = lower[step];
      for (let k = 0; k < at.length; k++) value -= values[k] * result[at[k]];
      result[pivotRow[step]] = value;
    }
    return result;
  }
}

/** Puts a column into the work vector; the rows that it touches. */
function scatter(column: SparseColumn, work: Float64Array): number[] {
  const touched: number[] = [];
  for (let k = 0; k < column.rows.length; k++) {
    work[column.rows[k]] = column.values[k];
    touched.push(column.rows[k]);
  }
  return touched;
}

/** The row with the fewest entries among those that are large enough. */
function choosePivot(
  work: Float64Array,
  touched: readonly number[],
  stepOfRow: Int32Array,
  rowUse: Int32Array,
): number | undefined {
  let largest = 0;
  let size = 0;
  for (const row of touched) {
    size = Math.max(size, Math.abs(work[row]));
    if (stepOfRow[row] < 0) largest = Math.max(largest, Math.abs(work[row]));
  }
  if (!(largest > SINGULAR * size)) return undefined;
  let best: number | undefined;
  for (const row of touched) {
    if (stepOfRow[row] >= 0 || Math.abs(work[row]) < PIVOT_SHARE * largest) continue;
    if (best === undefined || rowUse[row] < rowUse[best]) best = row;
  }
  return best;
}

function below(
  work: Float64Array,
  touched: readonly number[],
  stepOfRow: Int32Array,
  pivot: number,
): Entries {
  const at: number[] = [];
  const values: number[] = [];
  for (const row of touched) {
    if (stepOfRow[row] >= 0 || work[row] === 0) continue;
    at.push(row);
    values.push(work[row] / pivot);
  }
  return { at, values };
}
