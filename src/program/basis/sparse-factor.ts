/** A sparse column: values at rows. */
export interface SparseColumn {
  readonly rows: ArrayLike<number>;
  readonly values: ArrayLike<number>;
}

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

interface Entries {
  readonly at: number[];
  readonly values: number[];
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

/** Takes the earlier columns out of the work vector in the order of their steps; the entries of U. */
function eliminate(
  work: Float64Array,
  touched: number[],
  lower: readonly Entries[],
  stepOfRow: Int32Array,
): Entries {
  const seen = new Set(touched);
  const pending = new StepQueue();
  for (const row of touched) if (stepOfRow[row] >= 0) pending.push(stepOfRow[row], row);
  const at: number[] = [];
  const values: number[] = [];
  for (let next = pending.pop(); next !== undefined; next = pending.pop()) {
    const value = work[next.row];
    if (value === 0) continue;
    at.push(next.step);
    values.push(value);
    const { at: rows, values: factors } = lower[next.step];
    for (let k = 0; k < rows.length; k++) {
      const row = rows[k];
      if (!seen.has(row)) {
        seen.add(row);
        touched.push(row);
        if (stepOfRow[row] >= 0) pending.push(stepOfRow[row], row);
      }
      work[row] -= factors[k] * value;
    }
  }
  return { at, values };
}

/** Steps still to be taken out, the earliest first: a binary heap. */
class StepQueue {
  private readonly heap: { readonly step: number; readonly row: number }[] = [];

  push(step: number, row: number): void {
    const { heap } = this;
    heap.push({ step, row });
    for (let i = heap.length - 1; i > 0; ) {
      const parent = (i - 1) >> 1;
      if (heap[parent].step <= heap[i].step) break;
      [heap[parent], heap[i]] = [heap[i], heap[parent]];
      i = parent;
    }
  }

  pop(): { readonly step: number; readonly row: number } | undefined {
    const { heap } = this;
    const first = heap[0];
    const last = heap.pop();
    if (last === undefined || heap.length === 0) return first;
    heap[0] = last;
    for (let i = 0; ; ) {
      let least = i;
      for (const child of [2 * i + 1, 2 * i + 2]) {
        if (child < heap.length && heap[child].step < heap[least].step) least = child;
      }
      if (least === i) return first;
      [heap[least], heap[i]] = [heap[i], heap[least]];
      i = least;
    }
  }
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

/**
 * Columns in the order of elimination: as long as there is a row that only one of the columns left uses, or a
 * column that has only one row left, that pair goes first; of the rest those with the fewest entries.
 */
function eliminationOrder(columns: readonly SparseColumn[]): Int32Array {
  const size = columns.length;
  const order: number[] = [];
  const users: number[][] = Array.from({ length: size }, () => []);
  const left = new Int32Array(size);
  columns.forEach(({ rows }, j) => {
    left[j] = rows.length;
    for (let k = 0; k < rows.length; k++) users[rows[k]].push(j);
  });
  const done = new Uint8Array(size);
  const rowDone = new Uint8Array(size);
  const single: number[] = [];
  left.forEach((count, j) => {
    if (count === 1) single.push(j);
  });
  for (let j = single.pop(); j !== undefined; j = single.pop()) {
    if (done[j] === 1) continue;
    const row = Array.from(columns[j].rows).find((candidate) => rowDone[candidate] === 0);
    if (row === undefined) continue;
    done[j] = 1;
    rowDone[row] = 1;
    order.push(j);
    for (const other of users[row]) {
      left[other] -= 1;
      if (left[other] === 1 && done[other] === 0) single.push(other);
    }
  }
  const rest = Array.from({ length: size }, (_, j) => j).filter((j) => done[j] === 0);
  rest.sort((a, b) => left[a] - left[b] || a - b);
  return Int32Array.from([...order, ...rest]);
}

function rowCounts(columns: readonly SparseColumn[]): Int32Array {
  const counts = new Int32Array(columns.length);
  for (const { rows } of columns) for (let k = 0; k < rows.length; k++) counts[rows[k]] += 1;
  return counts;
}
