import { discountFactor } from '../../planning/discount.js';
import type { Plant } from '../../plant/plant.js';
import type { PriceParameter } from './price-parameter.js';
import { type QuoteLadder, receiptsAt } from './quote-ladder.js';

/**
 * How receipts of a firm monthly volume are put as a price: in the offer's own unit where all its materials have
 * one price, else as one price by mass unit for all months.
 */
export interface QuoteUnit {
  /** Σ over the months of discount × share in force: discounted tonnes by tonne a month. */
  readonly discounted: number;
  /** Absent where the materials' prices differ: quoted by mass unit. */
  readonly parameter?: PriceParameter;
  /** [month] */
  readonly weights: readonly number[];
}

export function quoteUnit(plant: Plant, id: string, parameter: PriceParameter | undefined): QuoteUnit {
  const contract = plant.contracts.find((each) => each.id === id);
  if (contract === undefined) throw new RangeError(`there is no contract ${id}`);
  const weights = plant.months.map(
    ({ index }) => discountFactor(plant, index, contract.paymentDays) * contract.inForce[index],
  );
  const discounted = weights.reduce((sum, weight) => sum + weight, 0);
  const isOne = parameter !== undefined && hasOnePrice(parameter);
  return { discounted, weights, ...(isOne ? { parameter } : {}) };
}

/** One price by mass unit, the same every month, that brings receipts of so much by mass unit a month. */
export function flatPrice({ discounted }: QuoteUnit, receipts: number): number {
  return receipts / discounted;
}

/** The same in the offer's own unit; undefined where its floor or ceiling keeps the price from bringing it. */
export function priceFor(unit: QuoteUnit, receipts: number): number | undefined {
  const { parameter } = unit;
  if (parameter === undefined) return flatPrice(unit, receipts);
  const brings = (value: number) => receiptsOf(unit, value);
  const { bends } = parameter;
  const next = bends.findIndex((bend) => brings(bend) >= receipts);
  if (next < 0 && bends.length > 0) return along(brings, bends[bends.length - 1], 1, receipts);
  if (next <= 0) return along(brings, bends[0] ?? parameter.own, -1, receipts);
  const [low, high] = [bends[next - 1], bends[next]];
  const [a, b] = [brings(low), brings(high)];
  return low + ((receipts - a) / (b - a)) * (high - low);
}

/** Present value of the receipts by mass unit a month at a price in the offer's own unit. */
export function receiptsOf({ parameter, discounted, weights }: QuoteUnit, value: number): number {
  if (parameter === undefined) return value * discounted;
  const [material] = Object.keys(parameter.rates);
  return parameter.pricesAt(value)[material].reduce((sum, price, t) => sum + price * weights[t], 0);
}

/** What must be received in all, present value, for a firm volume and a gain above the plan without it. */
export function quoteFor(
  ladder: QuoteLadder,
  unit: QuoteUnit,
  volume: number,
  margin: number,
): { readonly price?: number; readonly flatPrice: number } | undefined {
  const receipts = receiptsAt(ladder, volume);
  if (receipts === undefined || volume === 0) return undefined;
  const each = (receipts + margin) / volume;
  const price = priceFor(unit, each);
  return { ...(price === undefined ? {} : { price }), flatPrice: flatPrice(unit, each) };
}

/** On the straight line beyond the outermost bend, or everywhere. */
function along(
  brings: (value: number) => number,
  from: number,
  direction: 1 | -1,
  receipts: number,
): number | undefined {
  const start = brings(from);
  const rate = (brings(from + direction) - start) * direction;
  const size = Math.abs(start) + Math.abs(receipts);
  if (Math.abs(rate) <= 1e-12 * size) return Math.abs(receipts - start) <= 1e-9 * size ? from : undefined;
  return from + (receipts - start) / rate;
}

function hasOnePrice(parameter: PriceParameter): boolean {
  return [0, 1, parameter.own].every((value) => {
    const [first, ...others] = Object.values(parameter.pricesAt(value));
    return others.every((prices) => prices.every((price, t) => price === first[t]));
  });
}
