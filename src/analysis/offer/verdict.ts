import type { BreakEvenAnswer, Gain, QuoteAnswer, Verdict } from './offer-answer.js';
import { receiptsOf } from './quote.js';
import { largestPayingVolume } from './quote-ladder.js';

interface Findings {
  readonly gain: Gain | undefined;
  /** Difference in value that counts as none. */
  readonly tolerance: number;
  readonly hasWhole: boolean;
  /** That signing must leave. */
  readonly margin: number;
  readonly breakEven: BreakEvenAnswer;
  readonly quote: QuoteAnswer | undefined;
  readonly priceLimit: number | undefined;
  readonly hasPlanWithout: boolean;
}

/** Relative to the price: two prices nearer than this are one. */
const SAME_PRICE = 1e-6;

/** What to say, from the gain at the offer's price, its break-even and the quote ladder. */
export function verdictOf(findings: Findings): Verdict {
  const { gain, margin, tolerance, breakEven, hasPlanWithout, priceLimit } = findings;
  if (!hasPlanWithout) return { kind: 'take', reasons: ['no plan without it'] };
  const above = breakEven.interval === undefined ? breakEven.price : breakEven.interval.high;
  const upTo = largestVolume(findings);
  const volume = upTo === undefined ? {} : { upTo };
  const orPart = upTo === undefined ? 'decline' : 'take only up to';
  if (gain === undefined) return { kind: orPart, ...volume, reasons: ['cannot be served'] };
  const priced = above === undefined ? {} : { above };
  if (gain.low > margin + tolerance) return { kind: 'take', ...priced, reasons: ['price'] };
  if (isOpen(findings, gain, above))
    return { kind: 'too close to call', ...priced, ...volume, reasons: ['gap'] };
  if (above === undefined) {
    return { kind: orPart, ...volume, reasons: breakEven.reason === undefined ? [] : [breakEven.reason] };
  }
  if (priceLimit !== undefined && above > priceLimit) {
    return { kind: orPart, ...priced, ...volume, reasons: ['price limit'] };
  }
  return { kind: 'take only above', ...priced, ...volume, reasons: ['price'] };
}

/**
 * Whether the gaps of the solves decide. Without whole numbers a gain of nothing is plain where the break-even lies
 * away from the price: nothing is delivered at it.
 */
function isOpen(
  { margin, tolerance, hasWhole, breakEven }: Findings,
  gain: Gain,
  above: number | undefined,
): boolean {
  if (gain.high < margin - tolerance) return false;
  if (hasWhole) return true;
  const { own } = breakEven;
  return above !== undefined && Math.abs(above - own) <= SAME_PRICE * (1 + Math.abs(own));
}

/** At the offer's own price; undefined where no volume pays, or where it was not asked. */
function largestVolume({ quote, breakEven, margin }: Findings): number | undefined {
  if (quote?.unit.parameter === undefined) return undefined;
  const volume = largestPayingVolume(quote.ladder, receiptsOf(quote.unit, breakEven.own), margin);
  return volume > 0 ? volume : undefined;
}
