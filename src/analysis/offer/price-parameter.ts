import { type Derivation, derivationOf, rateOf } from '../../plant/derivation.js';
import { derivePrice } from '../../plant/derive-price.js';
import type { RateBasis } from '../../quantity/rate.js';
import type { Rate, Series } from '../../scenario/schema/figures.js';
import type { Contract, Scenario } from '../../scenario/schema/scenario.js';

type Price = Contract['price'];
type Formula = Extract<Price, { readonly index: string }>;
type PlainPrice = Exclude<Price, Formula>;

/**
 * One number that moves the price of an offer: the amount of its rate (of the base, in an index formula), or a
 * common factor on all its amounts where they differ.
 */
export interface PriceParameter {
  /** The material whose price moves alone; absent where all move. */
  readonly material?: string;
  readonly kind: 'price' | 'base' | 'factor';
  /** What an amount is by; absent for a factor. */
  readonly per?: RateBasis;
  /** Where the offer stands. */
  readonly own: number;
  /** Values at which the price of a month meets its floor or ceiling, rising. */
  readonly bends: readonly number[];
  /** What one unit more adds to each price, were there no floor and ceiling; by material, then month. */
  readonly rates: Readonly<Record<string, readonly number[]>>;
  /** Currency per mass unit, by material, then month. */
  pricesAt(value: number): Readonly<Record<string, readonly number[]>>;
}

export interface PriceParameters {
  /** Absent where no one number moves all prices: the amounts differ and are not all above 0. */
  readonly all?: PriceParameter;
  /** Each material alone, where the offer has a price for each. */
  readonly alone: readonly PriceParameter[];
}

/** The numbers that an offer's price can be argued by. */
export function priceParameters(scenario: Scenario, offer: Contract): PriceParameters {
  const derivation = derivationOf(scenario);
  const plain = plainOf(offer.price);
  const all = parameterOf(derivation, offer, undefined);
  const alone = isByMaterial(plain)
    ? offer.materials.flatMap((material) => parameterOf(derivation, offer, material) ?? [])
    : [];
  return { ...(all === undefined ? {} : { all }), alone };
}

function parameterOf(
  derivation: Derivation,
  offer: Contract,
  material: string | undefined,
): PriceParameter | undefined {
  const { price } = offer;
  const unit = derivation.scenario.units.mass;
  const rates = ratesIn(plainOf(price), material);
  const [first] = rates;
  const isOne = rates.every((rate) => amountOf(rate) === amountOf(first) && perOf(rate) === perOf(first));
  if (!isOne && rates.some((rate) => amountOf(rate) <= 0)) return undefined;
  const replaced = (value: number) =>
    withRates(price, material, (rate) => withAmount(rate, isOne ? value : amountOf(rate) * value));
  const own = isOne ? amountOf(first) : 1;
  const kind = !isOne ? 'factor' : isFormula(price) ? 'base' : 'price';
  return {
    ...(material === undefined ? {} : { material }),
    kind,
    ...(isOne ? { per: perOf(first) ?? unit } : {}),
    own,
    ...linesOf(derivation, offer, replaced),
  };
}

/** Without floor and ceiling each price is a straight line a + b·value; they clamp it. */
function linesOf(
  derivation: Derivation,
  { materials, price }: Contract,
  replaced: (value: number) => Price,
): Pick<PriceParameter, 'bends' | 'rates' | 'pricesAt'> {
  const free = (value: number, material: string) =>
    derivePrice(derivation, unclamped(replaced(value)), material);
  const lines = materials.map((material) => {
    const zero = free(0, material);
    const one = free(1, material);
    const bound = (side: 'floor' | 'ceiling', absent: number) => {
      const rate = isFormula(price) ? price[side] : undefined;
      return rate === undefined ? absent : rateOf(derivation, material, rate);
    };
    return {
      material,
      zero,
      rates: one.map((figure, t) => figure - zero[t]),
      low: bound('floor', Number.NEGATIVE_INFINITY),
      high: bound('ceiling', Number.POSITIVE_INFINITY),
    };
  });
  const bends = lines.flatMap(({ zero, rates, low, high }) =>
    rates.flatMap((rate, t) =>
      rate === 0 ? [] : [low, high].map((limit) => (limit - zero[t]) / rate).filter(Number.isFinite),
    ),
  );
  return {
    bends: [...new Set(bends)].sort((a, b) => a - b),
    rates: Object.fromEntries(lines.map(({ material, rates }) => [material, rates])),
    pricesAt: (value) =>
      Object.fromEntries(
        lines.map(({ material, zero, rates, low, high }) => [
          material,
          zero.map((figure, t) => Math.min(high, Math.max(low, figure + value * rates[t]))),
        ]),
      ),
  };
}

function isFormula(price: Price): price is Formula {
  return typeof price === 'object' && 'index' in price;
}

function plainOf(price: Price): PlainPrice {
  return isFormula(price) ? price.base : price;
}

function isByMaterial(price: PlainPrice): price is Extract<PlainPrice, { readonly byMaterial: unknown }> {
  return typeof price === 'object' && 'byMaterial' in price;
}

function ratesIn(price: PlainPrice, material: string | undefined): readonly Rate[] {
  if (!isByMaterial(price)) return valuesOf(price);
  return Object.entries(price.byMaterial)
    .filter(([id]) => material === undefined || id === material)
    .flatMap(([, series]) => valuesOf(series));
}

function valuesOf(series: Series<Rate>): readonly Rate[] {
  if (typeof series === 'number') return [series];
  if (Array.isArray(series)) return series as readonly Rate[];
  return typeof series === 'object' && 'from' in series ? series.values : [series as Rate];
}

/** The price with its rates changed, those of one material only where it is given. */
function withRates(price: Price, material: string | undefined, change: (rate: Rate) => Rate): Price {
  const plain = plainOf(price);
  const changed = isByMaterial(plain)
    ? {
        byMaterial: Object.fromEntries(
          Object.entries(plain.byMaterial).map(([id, series]) => [
            id,
            material === undefined || id === material ? seriesWith(series, change) : series,
          ]),
        ),
      }
    : seriesWith(plain, change);
  return (isFormula(price) ? { ...price, base: changed } : changed) as Price;
}

function seriesWith(series: Series<Rate>, change: (rate: Rate) => Rate): Series<Rate> {
  if (typeof series === 'number') return change(series);
  if (Array.isArray(series)) return series.map(change);
  return 'from' in series ? { ...series, values: series.values.map(change) } : change(series as Rate);
}

function unclamped(price: Price): Price {
  if (!isFormula(price)) return price;
  const { floor: _, ceiling: __, ...formula } = price;
  return formula;
}

const amountOf = (rate: Rate): number => (typeof rate === 'number' ? rate : rate.amount);

const perOf = (rate: Rate): RateBasis | undefined => (typeof rate === 'number' ? undefined : rate.per);

function withAmount(rate: Rate, amount: number): Rate {
  return typeof rate === 'number' ? amount : { ...rate, amount };
}
