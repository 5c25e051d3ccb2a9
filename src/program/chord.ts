import { reducedCostOf } from './affine-change.js';
import type { LinearProgram } from './linear-program.js';

export interface SolvedEnd {
  readonly program: LinearProgram;
  readonly primal: Float64Array;
  readonly rowDual: Float64Array;
}

/** How far the value may lie above and below the straight line between two ends, proved. */
export interface ChordError {
  readonly above: number;
  readonly below: number;
}

/**
 * For a maximization whose costs, right sides and bounds move affinely between two solved ends while the matrix
 * stands still. With t from 0 to 1 the mix (1−t)·x_a + t·x_b is feasible, so the value is at least
 * chord − t(1−t)·Δc·Δx; the mix of the duals (their positive and negative parts apart) is dual feasible, so it is
 * at most chord − t(1−t)·(Δu·Δy⁺ − Δl·Δy⁻), rows and columns alike. t(1−t) is at most 1/4.
 */
export function chordError(a: SolvedEnd, b: SolvedEnd): ChordError {
  let primal = 0;
  for (let j = 0; j < a.primal.length; j++) {
    primal += (b.program.cost[j] - a.program.cost[j]) * (b.primal[j] - a.primal[j]);
  }
  let dual = 0;
  const { program: p } = a;
  const { program: q } = b;
  for (let i = 0; i < a.rowDual.length; i++) {
    dual += term(p.rowLower[i], p.rowUpper[i], a.rowDual[i], q.rowLower[i], q.rowUpper[i], b.rowDual[i]);
  }
  for (let j = 0; j < a.primal.length; j++) {
    const [lower, upper] = [p.columnLower[j], p.columnUpper[j]];
    if (lower === q.columnLower[j] && upper === q.columnUpper[j]) continue;
    const before = reducedCostOf(p, j, a.rowDual);
    const after = reducedCostOf(q, j, b.rowDual);
    dual += term(lower, upper, before, q.columnLower[j], q.columnUpper[j], after);
  }
  return { above: Math.max(0, -dual) / 4, below: Math.max(0, primal) / 4 };
}

/** Δu·Δy⁺ − Δl·Δy⁻; nothing where a bound is missing. */
function term(la: number, ua: number, ya: number, lb: number, ub: number, yb: number): number {
  const up = Number.isFinite(ua) && Number.isFinite(ub) ? ub - ua : 0;
  const low = Number.isFinite(la) && Number.isFinite(lb) ? lb - la : 0;
  return up * (Math.max(yb, 0) - Math.max(ya, 0)) - low * (Math.max(-yb, 0) - Math.max(-ya, 0));
}
