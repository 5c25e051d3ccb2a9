import type { Formulation } from '../../planning/formulate.js';
import { type AffineChange, NO_CHANGE } from '../../program/affine-change.js';
import { hasIntegers } from '../../program/linear-program.js';
import type { Solver } from '../../solver/choose.js';
import { traceCurve } from '../sweep/exact-curve.js';
import { solveAt } from '../sweep/feasible-range.js';
import { PointSolver } from '../sweep/solve-point.js';
import { Unfinished } from '../unfinished.js';
import type { FeedOffer } from './feed-offer.js';

/** How far the fee may fall, with the same tonnes on offer, before the plant is better off declining some. */
export interface DeclineFees {
  /** Currency per mass unit: below it some of the tonnes taken now are declined; absent where none are ever. */
  readonly some?: number;
  /** Below it all that is not committed is declined. */
  readonly all?: number;
}

/** How often the range is widened downwards, each time twice as far. */
const WIDENINGS = 30;

/** Mass by month below which nothing is taken. */
const NOTHING = 1e-6;

/**
 * Traces the value as a function of the fee of the tonnes that are not committed, exactly (it is convex). Absent
 * with whole numbers, where nothing of the kind is exact, where nothing is taken at the fee itself, and where it
 * was stopped.
 *
 * @param fee where the plant stands, currency per mass unit, at which `formulation` was made
 */
export function declineFees(
  formulation: Formulation,
  offer: FeedOffer,
  fee: number,
  solver: Solver,
  cancelled?: () => boolean,
): DeclineFees | undefined {
  const { program, columns } = formulation;
  if (hasIntegers(program)) return undefined;
  const receive = columns.receive[offer.position];
  const change: AffineChange = {
    ...NO_CHANGE,
    cost: new Map(receive.map((column, month) => [column, offer.paid[month]])),
    offset: -offer.paid.reduce((sum, paid, month) => sum + paid * offer.committed[month], 0),
  };
  const points = new PointSolver(solver, { cancelled });
  const piece = (low: number) => {
    const start = { ...program, offset: program.offset - (fee - low) * change.offset };
    const cost = program.cost.slice();
    for (const [column, rate] of change.cost) cost[column] -= (fee - low) * rate;
    return { kind: 'affine' as const, from: low, to: fee, program: { ...start, cost }, change };
  };
  const taken = (primal: Float64Array) =>
    receive.reduce((sum, column, month) => sum + Math.max(0, primal[column] - offer.committed[month]), 0);
  try {
    let width = Math.max(1, Math.abs(fee));
    for (let i = 0; i < WIDENINGS; i++, width *= 2) {
      const whole = piece(fee - width);
      const first = solveAt(whole, whole.from, points);
      const last = solveAt(whole, fee, points);
      if (first === undefined || last === undefined || taken(last.primal) <= NOTHING) return undefined;
      if (taken(first.primal) > NOTHING) continue;
      const { segments } = traceCurve(whole, first, last, points).curve;
      return { all: segments[0].end, some: segments[segments.length - 1].start };
    }
    return {};
  } catch (error) {
    if (error instanceof Unfinished) return undefined;
    throw error;
  } finally {
    points.close();
  }
}
