import type { DisplacedByVolume } from '../../analysis/offer/displaced-by-volume.js';
import type { JudgedOffer } from '../../analysis/offer/offer-answer.js';
import { flatPrice, priceFor, quoteFor } from '../../analysis/offer/quote.js';
import type { Plant } from '../../plant/plant.js';
import { bottleneckOf, type DocumentLimit, limitsOf } from './document-limits.js';

/** From one break to the next: up to `monthlyMin` a full month, firm. */
export interface LadderEntry {
  readonly monthlyMin: number;
  /** For the whole volume; absent where a floor or ceiling keeps the price from bringing it. */
  readonly breakEven?: number;
  /** Of one mass unit more just below `monthlyMin`. */
  readonly marginal?: number;
  /** The break-even as one price by mass unit, the same every month. */
  readonly flatPrice: number;
  /** Present value that leaves the plant as well off. */
  readonly receipts: number;
  /** What is used up where this stretch begins. */
  readonly bottlenecks: readonly DocumentLimit[];
}

export interface QuoteDocument {
  readonly exact: boolean;
  /** The unit of breakEven and marginal: the offer's own, or by mass unit. */
  readonly unit: { readonly kind: 'price' | 'base' | 'factor'; readonly per?: string };
  readonly largest: { readonly volume: number; readonly limits: readonly DocumentLimit[] };
  /** For the volumes that the offer itself names, with the asked margin. */
  readonly prices: readonly {
    readonly volume: number;
    readonly price?: number;
    readonly flatPrice: number;
  }[];
}

/** The ladder and the prices to quote of an answer that has them. */
export function quoteDocument(
  plant: Plant,
  answer: JudgedOffer,
  { ladder, unit, displaced }: NonNullable<JudgedOffer['quote']>,
  volumes: readonly number[],
): {
  readonly ladder: readonly LadderEntry[];
  readonly quote: QuoteDocument;
  readonly displacedByVolume: DisplacedByVolume;
} {
  const { parameter } = unit;
  const entries = ladder.rungs.map(({ to, receiptsTo, slope, bottlenecks }): LadderEntry => {
    const breakEven = priceFor(unit, receiptsTo / to);
    const marginal = priceFor(unit, slope);
    return {
      monthlyMin: to,
      ...(breakEven === undefined ? {} : { breakEven }),
      ...(marginal === undefined ? {} : { marginal }),
      flatPrice: flatPrice(unit, receiptsTo / to),
      receipts: receiptsTo,
      bottlenecks: bottlenecks.map((each) => bottleneckOf(plant, each)),
    };
  });
  return {
    ladder: entries,
    displacedByVolume: displaced,
    quote: {
      exact: ladder.exact,
      unit:
        parameter === undefined
          ? { kind: 'price', per: plant.units.mass }
          : { kind: parameter.kind, ...(parameter.per === undefined ? {} : { per: parameter.per }) },
      largest: {
        volume: ladder.largest.volume,
        limits: limitsOf(plant, ladder.largest.limits, answer.offer),
      },
      prices: volumes.flatMap((volume) => {
        const quoted = quoteFor(ladder, unit, volume, answer.margin);
        return quoted === undefined ? [] : [{ volume, ...quoted }];
      }),
    },
  };
}
