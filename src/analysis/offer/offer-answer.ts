import type { RateBasis } from '../../quantity/rate.js';
import type { ConflictMember } from '../conflict/conflict.js';
import type { Best } from './best.js';
import type { NoBreakEven } from './break-even.js';
import type { Counting } from './counting.js';
import type { DisplacedByVolume } from './displaced-by-volume.js';
import type { Displacement } from './displacement.js';
import type { TermWorth } from './offer-terms.js';
import type { QuoteUnit } from './quote.js';
import type { QuoteLadder } from './quote-ladder.js';

/** What to say to the buyer, and why. */
export type OfferAnswer =
  | JudgedOffer
  /** There is no plan, with the offer or without it. */
  | { readonly status: 'infeasible' }
  | { readonly status: 'no certified answer' }
  | { readonly status: 'cancelled' };

export const VERDICTS = [
  'take',
  'decline',
  'take only above',
  'take only up to',
  'too close to call',
] as const;

export type VerdictKind = (typeof VERDICTS)[number];

export interface Verdict {
  readonly kind: VerdictKind;
  /** The price, in the offer's unit, above which to take it as it is; also beside other verdicts. */
  readonly above?: number;
  /** The largest firm monthly volume that pays at the offer's own price; also beside other verdicts. */
  readonly upTo?: number;
  readonly reasons: readonly VerdictReason[];
}

export type VerdictReason =
  | NoBreakEven
  /** Its price is above the break-even, or below it. */
  | 'price'
  /** The break-even is above what the user says the buyer would pay. */
  | 'price limit'
  /** The gain is less than the gaps of the two solves. */
  | 'gap';

export interface JudgedOffer {
  readonly status: 'judged';
  readonly offer: string;
  readonly verdict: Verdict;
  /** Absent where its minimums cannot be kept, or where there is no plan without it. */
  readonly gain?: Gain;
  readonly breakEven: BreakEvenAnswer;
  /** Each material's price alone, the others as offered. */
  readonly alone: readonly (BreakEvenAnswer & { readonly material: string })[];
  /** For a volume that the buyer calls. */
  readonly calls: readonly CallAnswer[];
  readonly quote?: QuoteAnswer;
  /** Where its minimums cannot be kept: the share of all its volumes that can be served. */
  readonly servedShare?: number;
  /** And promises and limits that cannot all hold; without any one of them the others can. */
  readonly conflict?: readonly ConflictMember[];
  readonly displaced?: Displacement;
  readonly terms: readonly TermWorth[];
  readonly without?: Best;
  readonly signed?: Best;
  /** Of the verdict, the gain, the break-even and the two plans; all else is in parts. */
  readonly counting: Counting;
  /** Whether shifts or windows are whole numbers at all. */
  readonly hasWhole: boolean;
  readonly margin: number;
  readonly solves: OfferSolves;
}

export interface OfferSolves {
  readonly verdict: number;
  readonly breakEven: number;
  readonly displaced: number;
  readonly alone: number;
  readonly ladder: number;
  readonly terms: number;
  readonly calls: number;
  readonly total: number;
}

/** Of signing at the offer's own price, against the best plan without it. */
export interface Gain {
  readonly presentValue: number;
  /** What both solves leave open: the gain lies between. */
  readonly low: number;
  readonly high: number;
  /** Plain money, in total and month by month; absent unless the plans were read. */
  readonly margin?: number;
  readonly byMonth?: readonly number[];
}

export interface BreakEvenAnswer {
  /** What number of the offer it is. */
  readonly kind: 'price' | 'base' | 'factor';
  /** Absent for a factor. */
  readonly per?: RateBasis;
  readonly own: number;
  readonly price?: number;
  readonly interval?: { readonly low?: number; readonly high?: number };
  /** Where there is none. */
  readonly reason?: NoBreakEven;
  readonly solves: number;
}

export interface CallAnswer {
  readonly call: 'expected' | 'minimum' | 'maximum';
  /** Present value; absent where it cannot be served. */
  readonly gain?: number;
  readonly breakEven: BreakEvenAnswer;
}

export interface QuoteAnswer {
  readonly ladder: QuoteLadder;
  readonly unit: QuoteUnit;
  readonly displaced: DisplacedByVolume;
}
