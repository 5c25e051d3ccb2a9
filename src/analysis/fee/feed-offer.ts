import { discountFactor } from '../../planning/discount.js';
import { othersAtFee } from '../../plant/derive-feeds.js';
import type { Plant, PlantFeed } from '../../plant/plant.js';
import { currencyPerMassUnit, type Rate } from '../../quantity/rate.js';
import type { Feed, Scenario } from '../../scenario/schema/scenario.js';

/**
 * A feed whose tipping fee is to be chosen, one fee for all months. Fees are in currency per mass unit here;
 * `perMass` turns the fee as the scenario writes it into that.
 */
export interface FeedOffer {
  readonly feed: string;
  /** Position in the plant's feeds. */
  readonly position: number;
  readonly perMass: number;
  readonly low: number;
  readonly high: number;
  readonly response: FeedResponse;
  /** What one unit of currency, received for this feed, is worth now: [month] */
  readonly paid: readonly number[];
  readonly committed: readonly number[];
  /** Whether the committed mass pays the fee too. */
  readonly isCommittedAtFee: boolean;
  /** Mass beyond the committed that comes at a fee: [month] */
  othersAt(fee: number): number[];
}

export type FeedResponse =
  | { readonly kind: 'none' }
  | { readonly kind: 'elastic'; readonly elasticity: number }
  /** Fees, in currency per mass unit, that are worth asking: those listed in the range and its upper end. */
  | { readonly kind: 'table'; readonly fees: readonly number[] };

/** The offer of a feed in a range of fees, which are as the scenario writes them. */
export function feedOffer(
  scenario: Scenario,
  plant: Plant,
  feed: string,
  range: { readonly low: number; readonly high: number },
): FeedOffer {
  const position = plant.feeds.findIndex(({ id }) => id === feed);
  const own = plant.feeds[position];
  const source = scenario.feeds.find(({ id }) => id === feed);
  if (own === undefined || source === undefined) throw new RangeError(`There is no feed ${feed}.`);
  const inUnits = (rate: Rate) => currencyPerMassUnit(rate, figuresOf(plant, own));
  const perMass = inUnits(unitRate(source));
  const [low, high] = [range.low * perMass, range.high * perMass];
  const available = own.committed.map(
    (committed, t) => committed + othersWithoutResponse(own, source, t, inUnits),
  );
  return {
    feed,
    position,
    perMass,
    low,
    high,
    response: responseOf(source, low, high, inUnits),
    paid: plant.months.map(({ index }) => discountFactor(plant, index, own.paymentDays)),
    committed: own.committed,
    isCommittedAtFee: source.committedFee === undefined,
    othersAt: (fee) =>
      own.committed.map((committed, t) =>
        othersAtFee(fee, committed, available[t], source.response, inUnits),
      ),
  };
}

/** One unit of currency by what the fee is written in. */
function unitRate({ tippingFee }: Feed): Rate {
  const first = Array.isArray(tippingFee)
    ? tippingFee[0]
    : typeof tippingFee === 'object' && 'values' in tippingFee
      ? tippingFee.values[0]
      : tippingFee;
  return typeof first === 'number' ? 1 : { ...first, amount: 1 };
}

/** What is available beyond the committed at the fee at which the scenario states it. */
function othersWithoutResponse(
  own: PlantFeed,
  { response }: Feed,
  month: number,
  inUnits: (rate: Rate) => number,
): number {
  if (response === undefined || Array.isArray(response)) return own.others[month];
  return own.others[month] / (own.fee[month] / inUnits(response.at)) ** response.elasticity;
}

function responseOf(
  { response }: Feed,
  low: number,
  high: number,
  inUnits: (rate: Rate) => number,
): FeedResponse {
  if (response === undefined) return { kind: 'none' };
  if (!Array.isArray(response)) return { kind: 'elastic', elasticity: response.elasticity };
  const listed = response.map(({ fee }) => inUnits(fee)).filter((fee) => fee >= low && fee <= high);
  return { kind: 'table', fees: [...new Set([...listed, high])].sort((a, b) => a - b) };
}

function figuresOf({ units, materials }: Plant, feed: PlantFeed) {
  const { tireMass, heatingValue } = materials.find(({ id }) => id === feed.material) ?? {};
  return {
    massUnit: units.mass,
    ...(tireMass === undefined ? {} : { tireMass }),
    ...(heatingValue === undefined ? {} : { heatingValue }),
  };
}
