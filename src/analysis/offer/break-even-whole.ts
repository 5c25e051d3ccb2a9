import type { Best } from './best.js';
import type { BreakEven, BreakEvenRequest } from './break-even.js';
import { type Found, lineOf, type Piece, searched } from './break-even-search.js';
import { atPrices } from './offer-program.js';
import type { OfferSolver } from './offer-solver.js';

/** What no plan is worth more than at a price. */
interface Bound {
  readonly price: number;
  readonly bound: number;
}

/** Each search with whole numbers is long. */
const MOST_SEARCHES = 3;
const MOST_STEPS_DOWN = 2;
/** How far beyond where the bound is thought to meet the target. */
const BEYOND = 1.3;

/** Relative to the price: two prices nearer than this are one. */
const SAME_PRICE = 1e-6;

/**
 * The break-even where a plan is only known to lie within a gap. The best of the plans that are known is convex in
 * the price and quickly found, so tangents go down along them; where they meet the target one search with whole
 * numbers looks for a better plan, until it finds none. `high` is their break-even against the bound of the plan
 * without the offer. `low` comes from the bounds of the searches: the value is convex in the price, so between two
 * prices it is not above the line through their bounds.
 *
 * @throws Unfinished, DeclaredMissed
 */
export function breakEvenWhole(request: BreakEvenRequest, solver: OfferSolver): BreakEven {
  const { program, parameter, margin, own } = request;
  const bounds: Bound[] = [{ price: parameter.own, bound: own.bound }];
  let { without } = request;
  const priced = (price: number) => atPrices(program, parameter.pricesAt(price));
  const known = (price: number): Best => {
    const best = solver.lent(priced(price), 'signed');
    if (best === undefined) throw new RangeError('a price made a plan infeasible');
    return best;
  };
  const searchFor = (target: number): Found => searched({ ...request, target, at: known, solver });
  const look = (price: number): void => {
    const best = solver.best(priced(price), 'signed');
    if (best === undefined) throw new RangeError('a price made a plan infeasible');
    bounds.push({ price, bound: best.bound });
    without = solver.improved(without, 'signed');
  };
  let found = searchFor(without.value + margin);
  for (let count = 0; found.found && count < MOST_SEARCHES && !isAsked(bounds, found.price); count++) {
    look(found.price);
    found = searchFor(without.value + margin);
  }
  if (!found.found) return found;
  for (let step = 0; step < MOST_STEPS_DOWN; step++) {
    const down = stepDown(request, found, bounds, without.value + margin);
    if (down === undefined) break;
    look(down);
  }
  found = searchFor(without.value + margin);
  if (!found.found) return found;
  const surely = searchFor(without.bound + margin);
  const low = lowest(found.piece, bounds, without.value + margin);
  return {
    found: true,
    price: found.price,
    interval: {
      ...(low === undefined ? {} : { low: Math.min(low, found.price) }),
      ...(surely.found ? { high: Math.max(found.price, surely.price) } : {}),
    },
  };
}

type Searched = Extract<Found, { readonly found: true }>;

function isAsked(bounds: readonly Bound[], price: number): boolean {
  return bounds.some((bound) => Math.abs(bound.price - price) <= SAME_PRICE * (1 + Math.abs(price)));
}

/** Where to look for a bound that does not exceed the target; undefined where one is near enough. */
function stepDown(
  { program }: BreakEvenRequest,
  { price, best, piece }: Searched,
  bounds: readonly Bound[],
  target: number,
): number | undefined {
  const { slope } = lineOf({ program }, piece, price, best);
  const [first] = above(bounds, piece, target);
  if (first === undefined || slope === 0) return undefined;
  const down = Math.max(piece.from, Math.min(price, first.price) - (BEYOND * (first.bound - target)) / slope);
  const low = lowest(piece, bounds, target);
  return (low !== undefined && low >= down) || isAsked(bounds, down) ? undefined : down;
}

/** The highest price at which no plan surely exceeds the target. */
function lowest(piece: Piece, bounds: readonly Bound[], target: number): number | undefined {
  const below = bounds.filter(({ bound }) => bound <= target).sort((a, b) => b.price - a.price);
  const [last] = below;
  if (last === undefined) return undefined;
  const next = above(bounds, piece, target).find(({ price }) => price > last.price);
  if (next === undefined || last.price < piece.from) return last.price;
  return last.price + ((target - last.bound) / (next.bound - last.bound)) * (next.price - last.price);
}

/** Bounds that exceed the target, on the stretch where the prices move on a straight line; rising. */
function above(bounds: readonly Bound[], { from, to }: Piece, target: number): Bound[] {
  return bounds
    .filter(({ price, bound }) => bound > target && price >= from && price <= to)
    .sort((a, b) => a.price - b.price);
}
