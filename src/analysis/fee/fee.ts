import type { Problem } from '../../issue/problem.js';
import { formulate } from '../../planning/formulate.js';
import type { Solver } from '../../solver/choose.js';
import { planMonths } from '../monthly-plan.js';
import { figuresOf } from '../variant/parameter.js';
import { readVariant } from '../variant/read-variant.js';
import { bestFees } from './best-fees.js';
import type { FeeOutcome } from './fee-answer.js';
import { FeePlans } from './fee-plans.js';
import { feedFee } from './feed-fee.js';
import { feedOffer } from './feed-offer.js';

export interface FeeRequest {
  /** Fees as the scenario writes them: of the same basis. */
  readonly feeds: readonly { readonly feed: string; readonly low: number; readonly high: number }[];
  /** Relative to the scale; 1e-4 if absent. */
  readonly gap?: number;
  /** Points of each curve; 25 if absent. */
  readonly points?: number;
}

export interface FeeHooks {
  readonly cancelled?: () => boolean;
  readonly onProgress?: (progress: { readonly value?: number; readonly bound: number }) => void;
}

const GAP = 1e-4;
const POINTS = 25;
const MOST_BOXES = 400;

/** The tipping fees that earn most, for one feed or for several that compete for the same machines. */
export function feesThatEarnMost(
  document: unknown,
  { feeds, gap = GAP, points = POINTS }: FeeRequest,
  solver: Solver,
  hooks: FeeHooks = {},
): FeeOutcome {
  const variant = readVariant(document);
  if (!variant.ok) return { status: 'problems', problems: variant.problems };
  const problems = feeds.flatMap(({ feed }) => unknownFeed(document, feed));
  if (problems.length > 0) return { status: 'problems', problems };
  const { scenario, plant } = variant;
  const offers = feeds.map(({ feed, ...range }) => feedOffer(scenario, plant, feed, range));
  const plans = new FeePlans(document, offers, solver, hooks.cancelled);
  const reference = offers.map(({ low, high, position }) =>
    Math.min(high, Math.max(low, plant.feeds[position].fee[0])),
  );
  // A fee that the scenario cannot have is told of before any is tried.
  for (const end of ['low', 'high'] as const) {
    const variant = plans.variantAt(offers.map((offer) => offer[end]));
    if (!variant.ok) return { status: 'problems', problems: variant.problems };
  }
  const at = plans.variantAt(reference);
  if (!at.ok) return { status: 'problems', problems: at.problems };
  const found = bestFees(formulate(at.plant), reference, offers, (fees) => plans.valueAt(fees), solver, {
    gap,
    mostBoxes: MOST_BOXES,
    ...hooks,
  });
  if (!Number.isFinite(found.bound) && hooks.cancelled?.() === true) return { status: 'cancelled' };
  const best = found.fees === undefined ? undefined : plans.planAt(found.fees);
  if (found.fees === undefined || best === undefined || found.value === undefined)
    return { status: 'infeasible' };
  const own = planMonths(plant, solver, { cancelled: hooks.cancelled });
  return {
    status: found.isCutShort || hooks.cancelled?.() === true ? 'partial' : 'complete',
    ...(own.status === 'optimal' ? { own: own.plan.statement.presentValue } : {}),
    value: found.value,
    bound: found.bound,
    gap: found.gap,
    scale: found.scale,
    feeds: offers.map((offer, i) =>
      feedFee(offer, i, found, found.fees as readonly number[], best, plans, points),
    ),
    solves: found.solves + plans.solves,
  };
}

function unknownFeed(document: unknown, feed: string): readonly Problem[] {
  const found = figuresOf(document, { pointers: [`/feeds/${feed}/tippingFee`] });
  return found.ok ? [] : found.problems;
}
