import type { Rate } from '../quantity/rate.js';
import type { Series } from '../scenario/schema/figures.js';
import type { Contract, Index } from '../scenario/schema/scenario.js';
import { spread } from '../scenario/series.js';
import { type Derivation, rateOf, ratesByMonth } from './derivation.js';

type Price = Contract['price'];
type Formula = Extract<Price, { readonly index: string }>;
type PlainPrice = Series<Rate> | { readonly byMaterial: Readonly<Record<string, Series<Rate>>> };

/** Currency per mass unit by month, of one material of a contract. */
export function derivePrice(derivation: Derivation, price: Price, material: string): number[] {
  if (!isFormula(price)) return plainPrice(derivation, price, material);
  const { floor, ceiling, passThrough = 1 } = price;
  const low = floor === undefined ? Number.NEGATIVE_INFINITY : rateOf(derivation, material, floor);
  const high = ceiling === undefined ? Number.POSITIVE_INFINITY : rateOf(derivation, material, ceiling);
  const base = plainPrice(derivation, price.base, material);
  return indexOf(derivation, price.index, material).map((index, t) =>
    Math.min(high, Math.max(low, indexPrice(index, base[t]!, passThrough))),
  );
}

interface IndexMonth {
  readonly kind: 'price' | 'points';
  readonly base: number;
  readonly value: number;
}

/**
 * Price: base + passThrough · (index − index.base).
 * Points: base · (1 + passThrough · (index / index.base − 1)).
 */
export function indexPrice(index: IndexMonth, base: number, passThrough: number): number {
  return index.kind === 'price'
    ? base + passThrough * (index.value - index.base)
    : base * (1 + passThrough * (index.value / index.base - 1));
}

function plainPrice(derivation: Derivation, price: PlainPrice, material: string): number[] {
  if (typeof price !== 'object' || !('byMaterial' in price)) return ratesByMonth(derivation, material, price);
  const own = price.byMaterial[material];
  if (own === undefined) throw new RangeError(`The price by material leaves out ${material}.`);
  return ratesByMonth(derivation, material, own);
}

function indexOf(derivation: Derivation, id: string, material: string): IndexMonth[] {
  const index = derivation.scenario.indices?.find((candidate) => candidate.id === id);
  if (index === undefined) throw new RangeError(`There is no index ${id}.`);
  const kind = index.kind ?? 'price';
  const figure = (rate: Rate) =>
    kind === 'points' ? points(index, rate) : rateOf(derivation, material, rate);
  const base = figure(index.base);
  return spread(index.values, derivation.months).map((value) => ({ kind, base, value: figure(value) }));
}

function points(index: Index, value: Rate): number {
  if (typeof value !== 'number') throw new RangeError(`Index ${index.id} is in points, not a rate.`);
  return value;
}

function isFormula(price: Price): price is Formula {
  return typeof price === 'object' && 'index' in price;
}
