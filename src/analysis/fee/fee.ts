import type { Problem } from '../../issue/problem.js';
import { formulate } from '../../planning/formulate.js';
import { hasIntegers } from '../../program/linear-program.js';
import type { Solver } from '../../solver/choose.js';
import { planMonths } from '../monthly-plan.js';
import { figuresOf } from '../variant/parameter.js';
import { readVariant } from '../variant/read-variant.js';
import { type BestFees, bestFees, type ValueAt } from './best-fees.js';
import type { FeeAnswer, FeeOutcome } from './fee-answer.js';
import { feeCurves, type PlannedFees } from './fee-curves.js';
import { type FeeHooks, FeePlans } from './fee-plans.js';
import { feedFee } from './feed-fee.js';
import { feedOffer } from './feed-offer.js';

export interface FeeRequest {
  /** Fees as the scenario writes them: of the same basis. */
  readonly feeds: readonly { readonly feed: string; readonly low: number; readonly high: number }[];
  /** Of the fees, and of each plan with whole numbers, relative to the scale; 1e-4 if absent. */
  readonly gap?: number;
  /** Points of each curve; 25 if absent. */
  readonly points?: number;
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
  const plans = new FeePlans(document, offers, solver, gap, hooks);
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
  const formulation = formulate(at.plant);
  const isWhole = hasIntegers(formulation.program);
  const valueAt: ValueAt = (fees) => (isWhole ? plans.valueInPartsAt(fees) : plans.valueAt(fees));
  const { cancelled } = hooks;
  const own = planMonths(plant, solver, { gap, cancelled });
  const areOwn = offers.every(({ position }, i) =>
    plant.feeds[position].fee.every((fee) => fee === reference[i]),
  );
  if (areOwn && own.status === 'optimal') plans.add(reference, own);
  const options = { gap, mostBoxes: MOST_BOXES, cancelled };
  const found = bestFees(formulation, reference, offers, valueAt, solver, options);
  const start = firstPlan([found.fees ?? reference, reference], plans);
  if (start === undefined) return { status: plans.isCancelled ? 'cancelled' : 'infeasible' };
  const { curves, ...best } = feeCurves(start, offers, plans, points);
  const { presentValue: value } = best.plan.plan.statement;
  const proof = proofOf(found, value, isWhole);
  return {
    status: found.isCutShort || plans.isCancelled ? 'partial' : 'complete',
    ...(own.status === 'optimal' ? { own: own.plan.statement.presentValue } : {}),
    value,
    ...proof,
    scale: found.scale,
    feeds: offers.map((offer, i) => feedFee(offer, i, best, curves[i], plans, proof.gap ?? 0)),
    solves: found.solves + plans.solves,
  };
}

function proofOf(
  { bound: proved, scale }: BestFees,
  value: number,
  isBoundInParts: boolean,
): Pick<FeeAnswer, 'bound' | 'gap' | 'isBoundInParts'> {
  const bound = Math.max(proved, value);
  if (!Number.isFinite(bound)) return {};
  return { bound, gap: (bound - value) / scale, ...(isBoundInParts ? { isBoundInParts } : {}) };
}

/** The plan at the first of some fees that have one. */
function firstPlan(tried: readonly (readonly number[])[], plans: FeePlans): PlannedFees | undefined {
  for (const fees of tried) {
    const plan = plans.planAt(fees);
    if (plan !== undefined) return { fees, plan };
  }
  return undefined;
}

function unknownFeed(document: unknown, feed: string): readonly Problem[] {
  const found = figuresOf(document, { pointers: [`/feeds/${feed}/tippingFee`] });
  return found.ok ? [] : found.problems;
}
