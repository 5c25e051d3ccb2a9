/**
 * A linear program as a plain record, which every part of the project consumes:
 *
 *     maximize (or minimize)  offset + cost · x
 *     subject to              rowLower ≤ A x ≤ rowUpper,  columnLower ≤ x ≤ columnUpper,
 *                             x_j whole where integer[j] is 1
 *
 * A is stored by columns: the entries of column j are `matrix.rows[k]`, `matrix.values[k]` for
 * `starts[j] ≤ k < starts[j + 1]`, rows rising. A missing bound is ±Infinity. Keys are structured
 * records that say what a row or column stands for; nothing here reads them.
 */
export interface LinearProgram<RowKey = unknown, ColumnKey = unknown> {
  readonly sense: 'maximize' | 'minimize';
  readonly offset: number;
  readonly columnKeys: readonly ColumnKey[];
  readonly rowKeys: readonly RowKey[];
  readonly cost: Float64Array;
  readonly columnLower: Float64Array;
  readonly columnUpper: Float64Array;
  readonly integer: Uint8Array;
  readonly rowLower: Float64Array;
  readonly rowUpper: Float64Array;
  readonly matrix: SparseColumns;
}

export interface SparseColumns {
  /** One start a column and the end of the last: length columns + 1. */
  readonly starts: Int32Array;
  readonly rows: Int32Array;
  readonly values: Float64Array;
}

export function columnCount(program: LinearProgram): number {
  return program.cost.length;
}

export function rowCount(program: LinearProgram): number {
  return program.rowLower.length;
}

export function hasIntegers(program: LinearProgram): boolean {
  return program.integer.some((flag) => flag === 1);
}

/** The same program without the demand that any column be whole. */
export function relaxed<R, C>(program: LinearProgram<R, C>): LinearProgram<R, C> {
  return { ...program, integer: new Uint8Array(program.integer.length) };
}

/** The program with its whole-number columns held at the (rounded) values of a point, and continuous. */
export function withIntegersHeld<R, C>(
  program: LinearProgram<R, C>,
  point: Float64Array,
): LinearProgram<R, C> {
  const columnLower = program.columnLower.slice();
  const columnUpper = program.columnUpper.slice();
  program.integer.forEach((flag, j) => {
    if (flag !== 1) return;
    columnLower[j] = Math.round(point[j]);
    columnUpper[j] = columnLower[j];
  });
  return { ...relaxed(program), columnLower, columnUpper };
}

/** offset + cost · x */
export function objectiveAt(program: LinearProgram, point: Float64Array): number {
  let sum = program.offset;
  for (let j = 0; j < point.length; j++) sum += program.cost[j] * point[j];
  return sum;
}

/** A x, one figure a row. */
export function rowActivities(program: LinearProgram, point: Float64Array): Float64Array {
  const { starts, rows, values } = program.matrix;
  const activity = new Float64Array(rowCount(program));
  for (let j = 0; j < point.length; j++) {
    for (let k = starts[j]; k < starts[j + 1]; k++) activity[rows[k]] += values[k] * point[j];
  }
  return activity;
}
