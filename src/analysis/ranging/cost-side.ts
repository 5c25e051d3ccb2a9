import { type AffineChange, changed, NO_CHANGE } from '../../program/affine-change.js';
import { costRange } from '../../program/basis/cost-range.js';
import { endOfLine, type Support } from '../../program/first-stretch.js';
import { objectiveAt } from '../../program/linear-program.js';
import { type Point, type Ranger, returnToStart, solveVariant, VariantUnanswered } from './ranger.js';

/**
 * How far a point stays optimal as costs move by θ ≥ 0: up to `end` (Infinity: for ever). `next`: what each
 * column gains or loses on the way to the point that is better beyond.
 */
export type CostSide =
  | { readonly kind: 'stays'; readonly end: number; readonly next?: readonly Step[] }
  | { readonly kind: 'unanswered' };

export interface Step {
  readonly column: number;
  readonly by: number;
}

export interface CostSideOptions {
  /** The optimal point whose stay is asked; by default the ranger's own. */
  readonly point?: Float64Array;
  /** Where the costs stop making sense: nothing is asked beyond. */
  readonly reach?: number;
}

const MOST_STEPS_BACK = 60;

/** A column counts as moved where it moves by more than this, relative. */
const MOVED = 1e-7;

/**
 * How far a point stays optimal as costs move by θ · direction · rates: from the basis where that settles it,
 * else by exact re-solves along supporting lines of the value, which is convex in θ.
 */
export function costSide(
  ranger: Ranger,
  rates: ReadonlyMap<number, number>,
  direction: 1 | -1,
  { point = ranger.primal, reach = Number.POSITIVE_INFINITY }: CostSideOptions = {},
): CostSide {
  const slope = slopeOf(rates, direction, point);
  const told = byBasis(ranger, rates, direction, slope, reach);
  if (told !== undefined) return told;
  try {
    returnToStart(ranger);
    return bySolving(ranger, { ...NO_CHANGE, cost: rates }, direction, point, reach);
  } catch (error) {
    if (error instanceof VariantUnanswered || error instanceof RangeError) return { kind: 'unanswered' };
    throw error;
  }
}

function byBasis(
  ranger: Ranger,
  rates: ReadonlyMap<number, number>,
  direction: 1 | -1,
  slope: number,
  reach: number,
): CostSide | undefined {
  if (ranger.basis === undefined) return undefined;
  const told = costRange(ranger.basis, rates, direction);
  const sameSlope = Math.abs(told.slope - slope) <= 1e-9 * (Math.abs(slope) + massOf(rates));
  // Where the point is another one than the basis's, the line of the value is not its own.
  if (!sameSlope) return undefined;
  if (told.end >= reach) return { kind: 'stays', end: reach };
  if (told.beyond === 'unknown' || told.beyond === 'unbounded') return undefined;
  return { kind: 'stays', end: told.end, ...(told.next === undefined ? {} : { next: told.next }) };
}

function bySolving(
  ranger: Ranger,
  change: AffineChange,
  direction: 1 | -1,
  point: Float64Array,
  reach: number,
): CostSide {
  const slope = slopeOf(change.cost, direction, point);
  const line = { value: objectiveAt(ranger.program, point), slope };
  const evaluate = (at: number): Support<Point> => {
    const found = solveVariant(ranger, changed(ranger.program, change, direction * at));
    return { at, value: found.value, slope: slopeOf(change.cost, direction, found.primal), from: found };
  };
  const options = { tolerance: ranger.tolerance, shortest: shortestOf(ranger) };
  for (const at of reaches(ranger, change.cost, reach)) {
    const far = bounded(evaluate, at);
    const found = endOfLine(evaluate, line, far, options);
    if (found.next === undefined) continue;
    return { kind: 'stays', end: found.end, next: stepsBetween(point, found.next.from.primal) };
  }
  return { kind: 'stays', end: reach };
}

/** The furthest of ever nearer points at which the value has a bound. */
function bounded(evaluate: (at: number) => Support<Point>, furthest: number): Support<Point> {
  for (let at = furthest, count = 0; ; at /= 1.25, count++) {
    try {
      return evaluate(at);
    } catch (error) {
      const unbounded = error instanceof VariantUnanswered && error.outcome === 'unbounded';
      if (!unbounded || count === MOST_STEPS_BACK) throw error;
    }
  }
}

/** Distances at which to look, each far beyond the last; the last for good. */
function reaches(ranger: Ranger, rates: ReadonlyMap<number, number>, reach: number): number[] {
  if (Number.isFinite(reach)) return [reach];
  const rate = Math.max(...[...rates.values()].map(Math.abs), 1e-12);
  const size = largestCost(ranger) / rate;
  return [size, 1e4 * size];
}

function shortestOf(ranger: Ranger): number {
  return 1e-9 * largestCost(ranger);
}

function largestCost(ranger: Ranger): number {
  return ranger.program.cost.reduce((most, cost) => Math.max(most, Math.abs(cost)), 1e-12);
}

function slopeOf(rates: ReadonlyMap<number, number>, direction: 1 | -1, point: Float64Array): number {
  let slope = 0;
  for (const [column, rate] of rates) slope += direction * rate * point[column];
  return slope;
}

function massOf(rates: ReadonlyMap<number, number>): number {
  let sum = 0;
  for (const rate of rates.values()) sum += Math.abs(rate);
  return sum;
}

function stepsBetween(from: Float64Array, to: Float64Array): Step[] {
  return Array.from(to, (value, column) => ({ column, by: value - from[column] })).filter(
    ({ column, by }) => Math.abs(by) > MOVED * (1 + Math.abs(from[column])),
  );
}
