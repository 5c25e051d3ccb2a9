import { type LinearProgram, objectiveAt } from './linear-program.js';

/**
 * A proof, from the program's own coefficients, that a point is feasible and that no point is better by
 * more than the gap. Knows no engine. Five conditions, each relative to its own scale:
 * primal feasibility, dual feasibility, complementary slackness, duality gap, integrality.
 */
export interface Certificate<RowKey = unknown, ColumnKey = unknown> {
  readonly accepted: boolean;
  readonly tolerance: number;
  /** What every gap is relative to: S, the sum of the absolute money terms. */
  readonly scale: number;
  readonly objective: number;
  /** Best objective that any point could have, proved by the duals; absent where no duals were given or they prove nothing. */
  readonly bound?: number;
  /** |bound − objective| / scale */
  readonly gap?: number;
  readonly primal: Violation<RowKey, ColumnKey>;
  readonly dual?: Violation<RowKey, ColumnKey>;
  readonly complementarity?: Violation<RowKey, ColumnKey>;
  /** Largest distance of a whole-number column from a whole number. */
  readonly integrality: Violation<RowKey, ColumnKey>;
  /** The conditions that fail; empty when accepted. */
  readonly failures: readonly CertificateCondition[];
}

export type CertificateCondition =
  | 'primal feasibility'
  | 'dual feasibility'
  | 'complementary slackness'
  | 'duality gap'
  | 'integrality';

/** The worst violation of one condition, relative to the scale of its row or column, and where it is. */
export interface Violation<RowKey = unknown, ColumnKey = unknown> {
  readonly amount: number;
  readonly row?: RowKey;
  readonly column?: ColumnKey;
}

export interface CertifiedPoint {
  readonly primal: Float64Array;
  /** rowDual = d objective / d right side, in the program's own sense. */
  readonly rowDual?: Float64Array;
}

export interface CertificateOptions {
  readonly tolerance?: number;
  /** S; by default Σ|cost_j x_j| + |offset|. */
  readonly scale?: number;
  /** Largest gap to accept, relative to the scale; by default the tolerance. */
  readonly gap?: number;
}

export const CERTIFICATE_TOLERANCE = 1e-6;

/**
 * Checks a point against a program. For a program with whole numbers give the duals of its relaxation:
 * they prove the bound; complementarity is then not asked for, since the point is not the relaxation's.
 */
export function certify<R, C>(
  program: LinearProgram<R, C>,
  point: CertifiedPoint,
  options: CertificateOptions = {},
): Certificate<R, C> {
  const tolerance = options.tolerance ?? CERTIFICATE_TOLERANCE;
  const objective = objectiveAt(program, point.primal);
  const scale = options.scale ?? moneyScale(program, point.primal);
  const rows = rowFigures(program, point.primal);
  const primal = violationOf(program, point.primal, rows);
  const integrality = integralityViolation(program, point.primal);
  const failures: CertificateCondition[] = [];
  if (!(primal.amount <= tolerance)) failures.push('primal feasibility');
  if (!(integrality.amount <= tolerance)) failures.push('integrality');
  const base = { tolerance, scale, objective, primal, integrality };
  if (point.rowDual === undefined) return { accepted: failures.length === 0, ...base, failures };

  const proof = dualProof(program, point.primal, point.rowDual, rows, tolerance);
  const gap = Math.abs(proof.bound - objective) / (scale > 0 ? scale : 1);
  const whole = program.integer.includes(1);
  if (!(proof.dual.amount <= tolerance)) failures.push('dual feasibility');
  if (!whole && !(proof.complementarity.amount <= tolerance)) failures.push('complementary slackness');
  if (!(gap <= (options.gap ?? tolerance))) failures.push('duality gap');
  return {
    accepted: failures.length === 0,
    ...base,
    bound: proof.bound,
    gap,
    dual: proof.dual,
    ...(whole ? {} : { complementarity: proof.complementarity }),
    failures,
  };
}

/** S of a program at a point: Σ|cost_j x_j| + |offset|. */
export function moneyScale(program: LinearProgram, point: Float64Array): number {
  let sum = Math.abs(program.offset);
  for (let j = 0; j < point.length; j++) sum += Math.abs(program.cost[j] * point[j]);
  return sum;
}

/** Largest breach of a bound or a row at any point, with or without a solver. */
export function primalViolation<R, C>(program: LinearProgram<R, C>, point: Float64Array): Violation<R, C> {
  return violationOf(program, point, rowFigures(program, point));
}

/** A x and the size of its largest term, by row. */
interface RowFigures {
  readonly activity: Float64Array;
  readonly magnitude: Float64Array;
}

function rowFigures({ rowLower, matrix }: LinearProgram, point: Float64Array): RowFigures {
  const { starts, rows, values } = matrix;
  const activity = new Float64Array(rowLower.length);
  const magnitude = new Float64Array(rowLower.length);
  for (let j = 0; j < point.length; j++) {
    if (point[j] === 0) continue;
    for (let k = starts[j]; k < starts[j + 1]; k++) {
      const term = values[k] * point[j];
      activity[rows[k]] += term;
      // A term that is no number stays one: it fails every comparison that follows.
      const size = Math.abs(term);
      if (!(size <= magnitude[rows[k]])) magnitude[rows[k]] = size;
    }
  }
  return { activity, magnitude };
}

function violationOf<R, C>(
  program: LinearProgram<R, C>,
  point: Float64Array,
  { activity, magnitude }: RowFigures,
): Violation<R, C> {
  let worst: Violation<R, C> = { amount: 0 };
  for (let j = 0; j < point.length; j++) {
    const amount =
      breach(point[j], program.columnLower[j], program.columnUpper[j]) / (1 + Math.abs(point[j]));
    if (!(amount <= worst.amount)) worst = { amount, column: program.columnKeys[j] };
  }
  for (let i = 0; i < activity.length; i++) {
    const amount = breach(activity[i], program.rowLower[i], program.rowUpper[i]) / (1 + magnitude[i]);
    if (!(amount <= worst.amount)) worst = { amount, row: program.rowKeys[i] };
  }
  return worst;
}

function integralityViolation<R, C>(program: LinearProgram<R, C>, point: Float64Array): Violation<R, C> {
  let worst: Violation<R, C> = { amount: 0 };
  program.integer.forEach((flag, j) => {
    if (flag !== 1) return;
    const amount = Math.abs(point[j] - Math.round(point[j]));
    if (!(amount <= worst.amount)) worst = { amount, column: program.columnKeys[j] };
  });
  return worst;
}

interface DualProof<R, C> {
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
function dualProof<R, C>(
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

function breach(value: number, lower: number, upper: number): number {
  if (Number.isNaN(value)) return Number.POSITIVE_INFINITY;
  return Math.max(0, lower - value, value - upper);
}
