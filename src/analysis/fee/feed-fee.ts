import { declineFees } from './decline.js';
import type { FeedFee, FeePoint, FeeStanding } from './fee-answer.js';
import { type PlannedFees, takings } from './fee-curves.js';
import type { FeePlans } from './fee-plans.js';
import type { FeedOffer } from './feed-offer.js';

/** What there is to say of one feed at the best fees: `i` is its place among the offers. */
export function feedFee(
  offer: FeedOffer,
  i: number,
  { fees, plan }: PlannedFees,
  curve: readonly FeePoint[],
  plans: FeePlans,
  gap: number,
): FeedFee {
  const { feed, perMass, low, high } = offer;
  const fee = fees[i];
  const { formulation } = plan.solved;
  const { material } = formulation.plant.feeds[offer.position];
  const decline = declineFees(formulation, offer, fee, plans.solver, plans.cancelled);
  return {
    feed,
    fee: fee / perMass,
    feeByMass: fee,
    range: { low: low / perMass, high: high / perMass },
    ...takings(plan, feed),
    standing: standingOf(offer, fee, gap),
    ...(decline === undefined ? {} : { decline }),
    worth: plan.plan.worth.find((each) => each.material === material)?.byMonth ?? [],
    curve,
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
