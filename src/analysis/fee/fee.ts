import type { Problem } from '../../issue/problem.js';
import { formulate } from '../../planning/formulate.js';
import type { Solver } from '../../solver/choose.js';
import { planMonths } from '../monthly-plan.js';
import type { PlannedAnswer } from '../plan-answer.js';
import { figuresOf, withParameter } from '../variant/parameter.js';
import { readVariant } from '../variant/read-variant.js';
import { type BestFees, bestFees } from './best-fees.js';
import { type DeclineFees, declineFees } from './decline.js';
import { type FeedOffer, feedOffer } from './feed-offer.js';

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

export interface FeeAnswer {
  readonly status: 'complete' | 'partial';
  /** Present value at the scenario's own fees; absent where it has no plan. */
  readonly own?: number;
  /** Present value at the best fees. */
  readonly value: number;
  /** No fees in the ranges earn more: proved. */
  readonly bound: number;
  /** (bound − value) / scale */
  readonly gap: number;
  readonly scale: number;
  readonly feeds: readonly FeedFee[];
  readonly solves: number;
}

export interface FeedFee {
  readonly feed: string;
  /** The best, as the scenario writes it. */
  readonly fee: number;
  /** Currency per mass unit. */
  readonly feeByMass: number;
  readonly range: { readonly low: number; readonly high: number };
  /** Mass received at it over the horizon, committed included, and what it pays, plain money. */
  readonly tonnes: number;
  readonly income: number;
  /** What the fee stands at: inside the range, or at one of its ends, and then why. */
  readonly standing: FeeStanding;
  readonly decline?: DeclineFees;
  /** Worth of a tonne at the gate, money of each month's end, in the plan at the best fees. */
  readonly worth: readonly number[];
  /** With the other feeds at their best fees. */
  readonly curve: readonly FeePoint[];
}

/**
 * `range only`: income rises with the fee without end (elasticity between −1 and 0, no response, or committed
 * tonnes that pay whatever is asked), so that only the range limits it.
 */
export type FeeStanding = 'inside' | 'lower end' | 'upper end' | 'range only' | 'listed';

export interface FeePoint {
  readonly fee: number;
  /** Present value; absent where there is no plan. */
  readonly value?: number;
  readonly tonnes?: number;
  readonly income?: number;
}

export type FeeOutcome =
  | FeeAnswer
  | { readonly status: 'problems'; readonly problems: readonly Problem[] }
  | { readonly status: 'infeasible' | 'no certified answer' };

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
  const plans = new FeePlans(document, offers, solver, hooks);
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

/** The plans at fees, each made once. */
class FeePlans {
  solves = 0;
  private readonly made = new Map<string, PlannedAnswer | undefined>();

  constructor(
    private readonly document: unknown,
    private readonly offers: readonly FeedOffer[],
    readonly solver: Solver,
    private readonly hooks: FeeHooks,
  ) {}

  variantAt(fees: readonly number[]) {
    const document = this.offers.reduce<unknown>((changed, { feed, perMass }, i) => {
      const parameter = { pointers: [`/feeds/${feed}/tippingFee`], kind: 'value' } as const;
      const found = figuresOf(changed, parameter);
      return found.ok ? withParameter(changed, parameter, found.figures, fees[i] / perMass) : changed;
    }, this.document);
    return readVariant(document);
  }

  planAt(fees: readonly number[]): PlannedAnswer | undefined {
    const key = fees.join(' ');
    if (!this.made.has(key)) this.made.set(key, this.make(fees));
    return this.made.get(key);
  }

  valueAt(fees: readonly number[]): { value: number; scale: number } | undefined {
    const plan = this.planAt(fees);
    if (plan === undefined) return undefined;
    const { presentValue: value, scale } = plan.plan.statement;
    return { value, scale };
  }

  get isCancelled(): boolean {
    return this.hooks.cancelled?.() === true;
  }

  private make(fees: readonly number[]): PlannedAnswer | undefined {
    const variant = this.variantAt(fees);
    if (!variant.ok) return undefined;
    const answer = planMonths(variant.plant, this.solver, { cancelled: this.hooks.cancelled });
    if (answer.status !== 'optimal') return undefined;
    this.solves += answer.solves;
    return answer;
  }
}

function feedFee(
  offer: FeedOffer,
  i: number,
  { gap }: BestFees,
  fees: readonly number[],
  best: PlannedAnswer,
  plans: FeePlans,
  points: number,
): FeedFee {
  const { feed, perMass, low, high } = offer;
  const fee = fees[i];
  const { plant } = best.solved.formulation;
  const { material } = plant.feeds[offer.position];
  const decline = declineFees(best.solved.formulation, offer, fee, plans.solver);
  const pointAt = (at: number): FeePoint => {
    const plan = plans.isCancelled ? undefined : plans.planAt(fees.map((other, k) => (k === i ? at : other)));
    if (plan === undefined) return { fee: at / perMass };
    return { fee: at / perMass, value: plan.plan.statement.presentValue, ...takings(plan, feed) };
  };
  return {
    feed,
    fee: fee / perMass,
    feeByMass: fee,
    range: { low: low / perMass, high: high / perMass },
    ...takings(best, feed),
    standing: standingOf(offer, fee, gap),
    ...(decline === undefined ? {} : { decline }),
    worth: best.plan.worth.find((each) => each.material === material)?.byMonth ?? [],
    curve: feesOfCurve(offer, fee, points).map(pointAt),
  };
}

function takings({ plan }: PlannedAnswer, feed: string): { tonnes: number; income: number } {
  const own = plan.months.flatMap(({ receipts }) => receipts.filter((each) => each.feed === feed));
  return {
    tonnes: own.reduce((sum, { mass }) => sum + mass, 0),
    income: own.reduce((sum, { income }) => sum + income, 0),
  };
}

function standingOf(
  { low, high, response, isCommittedAtFee, committed }: FeedOffer,
  fee: number,
  gap: number,
): FeeStanding {
  const near = Math.max(1e-9, gap) * (high - low);
  if (fee >= high - near) {
    const isEndless =
      response.kind === 'none' ||
      (response.kind === 'elastic' && response.elasticity > -1) ||
      (isCommittedAtFee && committed.some((mass) => mass > 0));
    return isEndless ? 'range only' : 'upper end';
  }
  if (fee <= low + near) return 'lower end';
  return response.kind === 'table' ? 'listed' : 'inside';
}

function feesOfCurve({ low, high, response }: FeedOffer, best: number, points: number): number[] {
  if (low === high) return [low];
  const even = Array.from({ length: points }, (_, k) => low + (k * (high - low)) / (points - 1));
  const listed = response.kind === 'table' ? response.fees : [];
  return [...new Set([...even, ...listed, best])].sort((a, b) => a - b);
}

function unknownFeed(document: unknown, feed: string): readonly Problem[] {
  const found = figuresOf(document, { pointers: [`/feeds/${feed}/tippingFee`] });
  return found.ok ? [] : found.problems;
}
