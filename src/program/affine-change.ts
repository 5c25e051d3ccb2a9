import type { LinearProgram } from './linear-program.js';

/**
 * What one unit of a parameter adds to the figures of a program: P(θ) = P(0) + θ · change.
 * Entries that do not move are left out.
 */
export interface AffineChange {
  readonly offset: number;
  readonly cost: ReadonlyMap<number, number>;
  readonly columnLower: ReadonlyMap<number, number>;
  readonly columnUpper: ReadonlyMap<number, number>;
  readonly rowLower: ReadonlyMap<number, number>;
  readonly rowUpper: ReadonlyMap<number, number>;
  /** By position in the program's matrix values. */
  readonly matrix: ReadonlyMap<number, number>;
}

export const NO_CHANGE: AffineChange = {
  offset: 0,
  cost: new Map(),
  columnLower: new Map(),
  columnUpper: new Map(),
  rowLower: new Map(),
  rowUpper: new Map(),
  matrix: new Map(),
};

/**
 * The change by unit between two programs of one shape, `width` apart in their parameter. Undefined where
 * the shapes differ (other columns, rows or cells, or a bound that appears or goes).
 */
export function changeBetween(a: LinearProgram, b: LinearProgram, width: number): AffineChange | undefined {
  if (!sameShape(a, b)) return undefined;
  return {
    offset: (b.offset - a.offset) / width,
    cost: slopes(a.cost, b.cost, width),
    columnLower: slopes(a.columnLower, b.columnLower, width),
    columnUpper: slopes(a.columnUpper, b.columnUpper, width),
    rowLower: slopes(a.rowLower, b.rowLower, width),
    rowUpper: slopes(a.rowUpper, b.rowUpper, width),
    matrix: slopes(a.matrix.values, b.matrix.values, width),
  };
}

/** P + θ · change */
export function changed<R, C>(
  program: LinearProgram<R, C>,
  change: AffineChange,
  theta: number,
): LinearProgram<R, C> {
  return {
    ...program,
    offset: program.offset + theta * change.offset,
    cost: moved(program.cost, change.cost, theta),
    columnLower: moved(program.columnLower, change.columnLower, theta),
    columnUpper: moved(program.columnUpper, change.columnUpper, theta),
    rowLower: moved(program.rowLower, change.rowLower, theta),
    rowUpper: moved(program.rowUpper, change.rowUpper, theta),
    matrix: { ...program.matrix, values: moved(program.matrix.values, change.matrix, theta) },
  };
}

/** P + Σ θ_k · change_k, each array copied once. */
export function changedBy<R, C>(
  program: LinearProgram<R, C>,
  changes: readonly { readonly change: AffineChange; readonly theta: number }[],
): LinearProgram<R, C> {
  const sum = (values: Float64Array, ratesOf: (change: AffineChange) => ReadonlyMap<number, number>) => {
    const touching = changes.filter(({ change }) => ratesOf(change).size > 0);
    if (touching.length === 0) return values;
    const result = values.slice();
    for (const { change, theta } of touching) {
      for (const [i, rate] of ratesOf(change)) result[i] += theta * rate;
    }
    return result;
  };
  return {
    ...program,
    offset: changes.reduce((offset, { change, theta }) => offset + theta * change.offset, program.offset),
    cost: sum(program.cost, ({ cost }) => cost),
    columnLower: sum(program.columnLower, ({ columnLower }) => columnLower),
    columnUpper: sum(program.columnUpper, ({ columnUpper }) => columnUpper),
    rowLower: sum(program.rowLower, ({ rowLower }) => rowLower),
    rowUpper: sum(program.rowUpper, ({ rowUpper }) => rowUpper),
    matrix: { ...program.matrix, values: sum(program.matrix.values, ({ matrix }) => matrix) },
  };
}

/** Which figures of a program a change reaches: what decides the shape of the value as a function of θ. */
export function reachOf(change: AffineChange): 'nothing' | 'objective' | 'right sides' | 'both' | 'matrix' {
  if (change.matrix.size > 0) return 'matrix';
  const objective = change.offset !== 0 || change.cost.size > 0;
  const { columnLower, columnUpper, rowLower, rowUpper } = change;
  const sides = columnLower.size + columnUpper.size + rowLower.size + rowUpper.size > 0;
  if (objective && sides) return 'both';
  if (sides) return 'right sides';
  return objective ? 'objective' : 'nothing';
}

/**
 * d value / dθ at an optimal point with duals: the objective's own change, plus the duals on the right sides
 * that move (for each row or column, on the side that its dual leans on). A subgradient or supergradient
 * where the value has a kink.
 */
export function slopeAlong(
  program: LinearProgram,
  change: AffineChange,
  point: { readonly primal: Float64Array; readonly rowDual: Float64Array },
): number {
  const sign = program.sense === 'maximize' ? 1 : -1;
  let slope = change.offset;
  for (const [column, rate] of change.cost) slope += rate * point.primal[column];
  for (const [row, rate] of change.rowUpper)
    if (sign * point.rowDual[row] > 0) slope += rate * point.rowDual[row];
  for (const [row, rate] of change.rowLower)
    if (sign * point.rowDual[row] < 0) slope += rate * point.rowDual[row];
  for (const column of new Set([...change.columnLower.keys(), ...change.columnUpper.keys()])) {
    const reduced = reducedCostOf(program, column, point.rowDual);
    const rates = sign * reduced > 0 ? change.columnUpper : change.columnLower;
    slope += (rates.get(column) ?? 0) * reduced;
  }
  return slope;
}

/** cost_j − Σ_i a_ij · y_i */
export function reducedCostOf(program: LinearProgram, column: number, rowDual: Float64Array): number {
  const { starts, rows, values } = program.matrix;
  let reduced = program.cost[column];
  for (let k = starts[column]; k < starts[column + 1]; k++) reduced -= values[k] * rowDual[rows[k]];
  return reduced;
}

function sameShape(a: LinearProgram, b: LinearProgram): boolean {
  return (
    a.sense === b.sense &&
    a.cost.length === b.cost.length &&
    a.rowLower.length === b.rowLower.length &&
    equal(a.matrix.starts, b.matrix.starts) &&
    equal(a.matrix.rows, b.matrix.rows) &&
    equal(a.integer, b.integer) &&
    sameFinite(a.columnLower, b.columnLower) &&
    sameFinite(a.columnUpper, b.columnUpper) &&
    sameFinite(a.rowLower, b.rowLower) &&
    sameFinite(a.rowUpper, b.rowUpper)
  );
}

function equal(a: ArrayLike<number>, b: ArrayLike<number>): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

function sameFinite(a: Float64Array, b: Float64Array): boolean {
  return a.every((value, i) => value === b[i] || (Number.isFinite(value) && Number.isFinite(b[i])));
}

function slopes(a: Float64Array, b: Float64Array, width: number): Map<number, number> {
  const result = new Map<number, number>();
  a.forEach((value, i) => {
    if (value !== b[i]) result.set(i, (b[i] - value) / width);
  });
  return result;
}

function moved(values: Float64Array, rates: ReadonlyMap<number, number>, theta: number): Float64Array {
  if (rates.size === 0) return values;
  const result = values.slice();
  for (const [i, rate] of rates) result[i] += theta * rate;
  return result;
}
