import type { LinearProgram } from './linear-program.js';
import type { RowFigures, Violation } from './violation.js';

export interface DualProof<R, C> {
  readonly bound: number;
  readonly dual: Violation<R, C>;
  readonly complementarity: Violation<R, C>;
}

/** The worst of the conditions so far, and where: a row by its index, a column j as −1 − j. */
interface Tally {
  bound: number;
  dual: number;
  dualAt: number | undefined;
  complementarity: number;
  complementarityAt: number | undefined;
}

/**
 * With y the row duals and d = cost − Aᵀy, for a maximization every feasible x has
 * objective ≤ offset + Σ_i max over the row's interval of y_i·r + Σ_j max over the column's interval of d_j·x;
 * for a minimization the same with min and ≥. A price that leans on a missing bound proves nothing and
 * is the dual violation; its term is taken at the point.
 */
export function dualProof<R, C>(
  program: LinearProgram<R, C>,
  primal: Float64Array,
  rowDual: Float64Array,
  { activity, magnitude }: RowFigures,
  tolerance: number,
): DualProof<R, C> {
  const sign = program.sense === 'maximize' ? 1 : -1;
  const { rowLower, rowUpper, columnLower, columnUpper } = program;
  const { reduced, columnScale, smallest } = reducedCosts(program, rowDual);
  const tally: Tally = {
    bound: program.offset,
    dual: 0,
    dualAt: undefined,
    complementarity: 0,
    complementarityAt: undefined,
  };
  for (let i = 0; i < rowDual.length; i++) {
    const price = rowDual[i];
    const gain = sign * price;
    const limit = gain > 0 ? rowUpper[i] : rowLower[i];
    const relative = Math.abs(price) / Math.max(Math.abs(price), smallest);
    count(tally, i, activity[i], 1 + magnitude[i], limit, price, relative, tolerance);
  }
  for (let j = 0; j < primal.length; j++) {
    const price = reduced[j];
    const gain = sign * price;
    const limit = gain > 0 ? columnUpper[j] : columnLower[j];
    const relative = Math.abs(price) / columnScale[j];
    count(tally, -1 - j, primal[j], 1 + Math.abs(primal[j]), limit, price, relative, tolerance);
  }
  return {
    bound: tally.bound,
    dual: { amount: tally.dual, ...placeOf(program, tally.dualAt) },
    complementarity: { amount: tally.complementarity, ...placeOf(program, tally.complementarityAt) },
  };
}

/**
 * Counts one row or column: what its price adds to the bound, taken at the limit that the price leans on, and
 * how far the price and the distance to that limit break the conditions.
 */
function count(
  tally: Tally,
  at: number,
  value: number,
  valueScale: number,
  limit: number,
  price: number,
  relative: number,
  tolerance: number,
): void {
  if (!Number.isFinite(limit)) {
    tally.bound += price * value;
    if (price !== 0 && !(relative <= tally.dual)) {
      tally.dual = relative;
      tally.dualAt = at;
    }
    return;
  }
  if (price !== 0) tally.bound += price * limit;
  const slack = Math.abs(value - limit) / valueScale;
  // A figure off its bound by more than the tolerance must have no price, and the other way round.
  const complementarity = slack > tolerance ? Math.min(slack, relative) : 0;
  if (!(complementarity <= tally.complementarity)) {
    tally.complementarity = complementarity;
    tally.complementarityAt = at;
  }
}

function placeOf<R, C>(program: LinearProgram<R, C>, at: number | undefined): { row?: R; column?: C } {
  if (at === undefined) return {};
  return at >= 0 ? { row: program.rowKeys[at] } : { column: program.columnKeys[-1 - at] };
}

/**
 * d = cost − Aᵀy with the size of the terms that it is summed from, no less than `smallest`, a thousandth of the
 * largest cost.
 */
function reducedCosts(program: LinearProgram, rowDual: Float64Array) {
  const { starts, rows, values } = program.matrix;
  const reduced = program.cost.slice();
  const columnScale = new Float64Array(reduced.length);
  let largest = 1e-12;
  for (let j = 0; j < reduced.length; j++) largest = Math.max(largest, Math.abs(program.cost[j]));
  const smallest = 1e-3 * largest;
  for (let j = 0; j < reduced.length; j++) {
    let size = Math.max(Math.abs(program.cost[j]), smallest);
    for (let k = starts[j]; k < starts[j + 1]; k++) {
      const term = values[k] * rowDual[rows[k]];
      reduced[j] -= term;
      size = Math.max(size, Math.abs(term));
    }
    columnScale[j] = size;
  }
  return { reduced, columnScale, smallest };
}
