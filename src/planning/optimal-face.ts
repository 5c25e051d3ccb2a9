import type { Plant } from '../plant/plant.js';
import { reducedCostOf } from '../program/affine-change.js';
import { type LinearProgram, rowActivities } from '../program/linear-program.js';
import type { Columns } from './columns.js';
import type { PlanProgram } from './formulate.js';
import type { ColumnKey } from './keys.js';

/** Relative to the largest cost: a price above it holds its row or column where it is. */
const PRICE_TOLERANCE = 1e-9;

/**
 * The plans of equal value: every row and column that has a price is held at the bound that it leans on,
 * by complementary slackness. Any point of this program is optimal for the one that it came from.
 */
export function optimalFace<R, C>(
  program: LinearProgram<R, C>,
  primal: Float64Array,
  rowDual: Float64Array,
): LinearProgram<R, C> {
  const priced = PRICE_TOLERANCE * Math.max(...program.cost.map(Math.abs), Number.MIN_VALUE);
  const columnLower = program.columnLower.slice();
  const columnUpper = program.columnUpper.slice();
  const rowLower = program.rowLower.slice();
  const rowUpper = program.rowUpper.slice();
  const { starts, rows, values } = program.matrix;
  for (let j = 0; j < primal.length; j++) {
    let reduced = program.cost[j];
    for (let k = starts[j]; k < starts[j + 1]; k++) reduced -= values[k] * rowDual[rows[k]];
    if (Math.abs(reduced) > priced) hold(columnLower, columnUpper, j, primal[j]);
  }
  const activity = rowActivities(program, primal);
  for (let i = 0; i < rowDual.length; i++) {
    if (Math.abs(rowDual[i]) > priced) hold(rowLower, rowUpper, i, activity[i]);
  }
  return { ...program, columnLower, columnUpper, rowLower, rowUpper };
}

/**
 * The same told by the prices alone, for any right sides at which they are optimal: each row and column that has a
 * price is held at the bound that its price leans on.
 */
export function faceOfPrices<R, C>(program: LinearProgram<R, C>, rowDual: Float64Array): LinearProgram<R, C> {
  const priced = PRICE_TOLERANCE * Math.max(...program.cost.map(Math.abs), Number.MIN_VALUE);
  const sign = program.sense === 'maximize' ? 1 : -1;
  const held = { ...program, ...copiesOfBounds(program) };
  const lean = (lower: Float64Array, upper: Float64Array, at: number, price: number) => {
    if (Math.abs(price) <= priced) return;
    const bound = sign * price > 0 ? upper[at] : lower[at];
    // A price on a missing bound is rounding: the certificate would not have let it pass.
    if (Number.isFinite(bound)) [lower[at], upper[at]] = [bound, bound];
  };
  for (let j = 0; j < program.cost.length; j++) {
    lean(held.columnLower, held.columnUpper, j, reducedCostOf(program, j, rowDual));
  }
  for (let i = 0; i < rowDual.length; i++) lean(held.rowLower, held.rowUpper, i, rowDual[i]);
  return held;
}

/** The same program with machine-hours, to be kept few, in place of its objective. */
export function fewestMachineHours(plant: Plant, columns: Columns, program: PlanProgram): PlanProgram {
  const cost = new Float64Array(program.cost.length);
  plant.steps.forEach((step, k) => {
    for (const window of columns.run[k]) {
      window.forEach((column, month) => {
        cost[column] = -1 / step.throughput[month];
      });
    }
  });
  return { ...program, offset: 0, cost };
}

/**
 * The same program with a fixed order in place of its objective: of plans that are equal in all else the one that
 * takes, runs, sells and delivers what comes first by id.
 */
export function firstById<R>(program: LinearProgram<R, ColumnKey>): LinearProgram<R, ColumnKey> {
  const count = program.cost.length;
  const cost = Float64Array.from(program.columnKeys, ({ kind }, j) =>
    ORDERED.has(kind) ? (count - j) / count : 0,
  );
  return { ...program, offset: 0, cost };
}

const ORDERED: ReadonlySet<ColumnKey['kind']> = new Set(['receive', 'run', 'sell', 'deliver', 'dispose']);

function copiesOfBounds({ columnLower, columnUpper, rowLower, rowUpper }: LinearProgram) {
  return {
    columnLower: columnLower.slice(),
    columnUpper: columnUpper.slice(),
    rowLower: rowLower.slice(),
    rowUpper: rowUpper.slice(),
  };
}

function hold(lower: Float64Array, upper: Float64Array, at: number, value: number): void {
  const bound = Math.abs(value - lower[at]) <= Math.abs(value - upper[at]) ? lower[at] : upper[at];
  lower[at] = bound;
  upper[at] = bound;
}
