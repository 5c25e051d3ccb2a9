import type { PlannedAnswer } from '../plan-answer.js';
import type { FeePoint } from './fee-answer.js';
import type { FeePlans } from './fee-plans.js';
import type { FeedOffer } from './feed-offer.js';

/** Fees, currency per mass unit by offer, and the plan at them. */
export interface PlannedFees {
  readonly fees: readonly number[];
  readonly plan: PlannedAnswer;
}

/** How often curves are begun anew at better fees that were found on one. */
const MOST_MOVES = 4;

/** Relative to the scale: less is rounding. */
const BETTER = 1e-9;

/**
 * Plans over the range of each fee, with the others as they are; where one of them earns more, its fees are taken and
 * the curves made anew.
 */
export function feeCurves(
  start: PlannedFees,
  offers: readonly FeedOffer[],
  plans: FeePlans,
  points: number,
): PlannedFees & { readonly curves: readonly (readonly FeePoint[])[] } {
  let best = start;
  for (let moves = 0; ; moves++) {
    const rows = offers.map((offer, i) => plansAlong(best, offer, i, plans, points));
    const better = rows.flat().filter(isPlanned).reduce(higher, best);
    const { scale } = best.plan.plan.statement;
    if (moves === MOST_MOVES || presentValueOf(better) - presentValueOf(best) <= BETTER * scale) {
      return { ...best, curves: rows.map((row, i) => row.map((each) => pointOf(each, offers[i], i))) };
    }
    best = better;
  }
}

/** Fees along the range of one feed, each with its plan where there is one. */
type Tried = { readonly fees: readonly number[]; readonly plan?: PlannedAnswer };

function plansAlong(
  { fees, plan }: PlannedFees,
  offer: FeedOffer,
  i: number,
  plans: FeePlans,
  points: number,
): Tried[] {
  const tried: Tried[] = [];
  for (const fee of feesOfCurve(offer, fees[i], points)) {
    const at = fees.map((other, k) => (k === i ? fee : other));
    const found = fee === fees[i] ? plan : plans.planAt(at);
    if (found !== undefined) tried.push({ fees: at, plan: found });
    // A plan that was stopped is none that does not exist.
    else if (!plans.isCancelled) tried.push({ fees: at });
  }
  return tried;
}

function isPlanned(tried: Tried): tried is PlannedFees {
  return tried.plan !== undefined;
}

function higher(a: PlannedFees, b: PlannedFees): PlannedFees {
  return presentValueOf(b) > presentValueOf(a) ? b : a;
}

function presentValueOf({ plan }: PlannedFees): number {
  return plan.plan.statement.presentValue;
}

function pointOf({ fees, plan }: Tried, { feed, perMass }: FeedOffer, i: number): FeePoint {
  const fee = fees[i] / perMass;
  return plan === undefined
    ? { fee }
    : { fee, value: plan.plan.statement.presentValue, ...takings(plan, feed) };
}

/** Mass received of a feed and what it pays, over the horizon. */
export function takings({ plan }: PlannedAnswer, feed: string): { tonnes: number; income: number } {
  const own = plan.months.flatMap(({ receipts }) => receipts.filter((each) => each.feed === feed));
  return {
    tonnes: own.reduce((sum, { mass }) => sum + mass, 0),
    income: own.reduce((sum, { income }) => sum + income, 0),
  };
}

function feesOfCurve({ low, high, response }: FeedOffer, best: number, points: number): number[] {
  if (low === high) return [low];
  const even = Array.from({ length: points }, (_, k) => low + (k * (high - low)) / (points - 1));
  const listed = response.kind === 'table' ? response.fees : [];
  return [...new Set([...even, ...listed, best])].sort((a, b) => a - b);
}
