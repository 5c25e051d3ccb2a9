import { certify } from '../certificate.js';
import { columnCount, type LinearProgram, rowCount } from '../linear-program.js';
import { factorSparse, type SparseColumn, type SparseFactor } from './sparse-factor.js';

export type { SparseColumn } from './sparse-factor.js';

export type VariableStatus = 'basic' | 'at lower' | 'at upper' | 'free at zero';

/** Status of each column and row of a program, in its order. */
export interface BasisStatuses {
  readonly columns: readonly VariableStatus[];
  readonly rows: readonly VariableStatus[];
}

/**
 * An optimal basis of a linear program, factored. Variables are the columns, then the rows' activities: with
 * n columns variable j is column j for j < n and the activity of row j − n else, all tied by A x − r = 0.
 */
export interface OptimalBasis {
  readonly program: LinearProgram;
  /** 1 for a maximization, −1 for a minimization. */
  readonly sign: 1 | -1;
  /** Columns of the program: rows' activities are the variables from here on. */
  readonly columns: number;
  readonly factor: SparseFactor;
  /** The variable that is basic in each place of the basis. */
  readonly basic: Int32Array;
  /** The place of each variable in the basis; −1 where it is not basic. */
  readonly place: Int32Array;
  readonly status: readonly VariableStatus[];
  /** Value, bounds and price of each variable; price = d objective / d value, in the program's own sense. */
  readonly value: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly price: Float64Array;
  /** The largest cost: what prices are judged by. */
  readonly priceSize: number;
}

/**
 * Factors a basis and proves its point optimal by the certificate.
 *
 * @returns undefined where the basis is singular or its point does not certify.
 */
export function openBasis(program: LinearProgram, statuses: BasisStatuses): OptimalBasis | undefined {
  const columns = columnCount(program);
  const rows = rowCount(program);
  const status = [...statuses.columns, ...statuses.rows];
  const basic = Int32Array.from(status.flatMap((each, j) => (each === 'basic' ? [j] : [])));
  if (basic.length !== rows) return undefined;
  const factor = factorSparse(Array.from(basic, (variable) => columnOf(program, variable)));
  if (factor === undefined) return undefined;
  const place = new Int32Array(columns + rows).fill(-1);
  basic.forEach((variable, at) => {
    place[variable] = at;
  });
  const lower = Float64Array.from([...program.columnLower, ...program.rowLower]);
  const upper = Float64Array.from([...program.columnUpper, ...program.rowUpper]);
  const value = valuesOf(program, factor, basic, status, lower, upper);
  const rowDual = factor.solveTransposed(
    Float64Array.from(basic, (j) => (j < columns ? program.cost[j] : 0)),
  );
  const price = Float64Array.from(status, (each, j) =>
    each === 'basic' ? 0 : (j < columns ? program.cost[j] : 0) - along(program, j, rowDual),
  );
  // The activity of row i has the column −e_i: its price is the row's dual itself.
  const point = { primal: value.subarray(0, columns), rowDual };
  if (!value.every(Number.isFinite) || !certify(program, point).accepted) return undefined;
  const sign = program.sense === 'maximize' ? 1 : -1;
  const priceSize = program.cost.reduce((most, cost) => Math.max(most, Math.abs(cost)), 1e-300);
  return { program, sign, columns, factor, basic, place, status, value, lower, upper, price, priceSize };
}

/** The column of a variable in A x − r = 0. */
export function columnOf(program: LinearProgram, variable: number): SparseColumn {
  const columns = columnCount(program);
  if (variable >= columns) return { rows: [variable - columns], values: [-1] };
  const { starts, rows, values } = program.matrix;
  const [start, end] = [starts[variable], starts[variable + 1]];
  return { rows: rows.subarray(start, end), values: values.subarray(start, end) };
}

/** Σ over the entries of a variable's column of value · y[row] */
export function along(program: LinearProgram, variable: number, y: Float64Array): number {
  const columns = program.cost.length;
  if (variable >= columns) return -y[variable - columns];
  const { starts, rows, values } = program.matrix;
  let sum = 0;
  for (let k = starts[variable]; k < starts[variable + 1]; k++) sum += values[k] * y[rows[k]];
  return sum;
}

/** x_B = −B⁻¹ N x_N */
function valuesOf(
  program: LinearProgram,
  factor: SparseFactor,
  basic: Int32Array,
  status: readonly VariableStatus[],
  lower: Float64Array,
  upper: Float64Array,
): Float64Array {
  const value = new Float64Array(status.length);
  const side = new Float64Array(basic.length);
  status.forEach((each, j) => {
    if (each === 'basic') return;
    value[j] = each === 'at lower' ? lower[j] : each === 'at upper' ? upper[j] : 0;
    if (value[j] === 0) return;
    const { rows, values } = columnOf(program, j);
    for (let k = 0; k < rows.length; k++) side[rows[k]] -= values[k] * value[j];
  });
  const solved = factor.solve(side);
  basic.forEach((variable, at) => {
    value[variable] = solved[at];
  });
  return value;
}
