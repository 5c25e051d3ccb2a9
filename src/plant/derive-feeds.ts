import type { Rate } from '../quantity/rate.js';
import type { Feed } from '../scenario/schema/scenario.js';
import { byMonth, type Derivation, rateOf, ratesByMonth, sortedById } from './derivation.js';
import type { PlantFeed } from './plant.js';

type Response = NonNullable<Feed['response']>;

export function deriveFeeds(derivation: Derivation): PlantFeed[] {
  return sortedById(derivation.scenario.feeds).map((feed) => {
    const { id, material } = feed;
    const fee = ratesByMonth(derivation, material, feed.tippingFee);
    const committed = byMonth(derivation, feed.committed, 0);
    const available = byMonth(derivation, feed.available, 0);
    const inUnits = (rate: Rate) => rateOf(derivation, material, rate);
    return {
      id,
      name: feed.name ?? id,
      material,
      fee,
      committedFee:
        feed.committedFee === undefined ? fee : ratesByMonth(derivation, material, feed.committedFee),
      haulage: ratesByMonth(derivation, material, feed.haulage),
      committed,
      others: fee.map((p, t) => othersAtFee(p, committed[t]!, available[t]!, feed.response, inUnits)),
      responds: feed.response !== undefined,
      paymentDays: feed.paymentDays ?? 0,
    };
  });
}

/**
 * Mass a month beyond the committed that comes at a tipping fee of p.
 * Elasticity: (available − committed) · (p / at)^elasticity, for p > 0.
 * Table: the entry with the lowest fee not below p, less the committed; 0 above the last.
 *
 * @throws RangeError for an elasticity with a fee that is not above 0.
 */
export function othersAtFee(
  fee: number,
  committed: number,
  available: number,
  response: Response | undefined,
  inUnits: (rate: Rate) => number,
): number {
  if (response === undefined) return Math.max(0, available - committed);
  if (Array.isArray(response)) return Math.max(0, availableByTable(fee, response, inUnits) - committed);
  const at = inUnits(response.at);
  if (!(fee > 0 && at > 0)) throw new RangeError('An elasticity needs tipping fees above 0.');
  return Math.max(0, available - committed) * (fee / at) ** response.elasticity;
}

function availableByTable(
  fee: number,
  table: Extract<Response, readonly unknown[]>,
  inUnits: (rate: Rate) => number,
): number {
  const entries = table.map((entry) => ({ fee: inUnits(entry.fee), available: entry.available }));
  entries.sort((a, b) => a.fee - b.fee);
  return entries.find((entry) => entry.fee >= fee)?.available ?? 0;
}
