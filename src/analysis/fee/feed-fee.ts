import type { PlannedAnswer } from '../plan-answer.js';
import type { BestFees } from './best-fees.js';
import { declineFees } from './decline.js';
import type { FeedFee, FeePoint, FeeStanding } from './fee-answer.js';
import type { FeePlans } from './fee-plans.js';
import type { FeedOffer } from './feed-offer.js';

/** What there is to say of one feed at the best fees: `i` is its place among the offers. */
export function feedFee(
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
  const decline = declineFees(best.solved.formulation, offer, fee, plans.solver, plans.cancelled);
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
    if (response.kind === 'none') return 'no response';
    if (response.kind === 'elastic' && response.elasticity > -1) {
      return response.elasticity === 0 ? 'no response' : 'inelastic';
    }
    return isCommittedAtFee && committed.some((mass) => mass > 0) ? 'committed pay' : 'upper end';
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
