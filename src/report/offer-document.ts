import type { Counting } from '../analysis/offer/counting.js';
import type { DisplacedByVolume } from '../analysis/offer/displaced-by-volume.js';
import type { UncertainGain } from '../analysis/offer/gain-under-uncertainty.js';
import type {
  BreakEvenAnswer,
  CallAnswer,
  Gain,
  JudgedOffer,
  OfferAnswer,
  OfferSolves,
  VerdictKind,
  VerdictReason,
} from '../analysis/offer/offer-answer.js';
import type { TermWorth } from '../analysis/offer/offer-terms.js';
import type { SignedOffer } from '../analysis/offer/read-offer.js';
import type { Plant } from '../plant/plant.js';
import { CAUTIONS } from './cautions.js';
import { withoutInfinities } from './finite.js';
import { type Names, namesOf } from './names.js';
import { type DisplacedDocument, displacedDocument } from './offer/displaced-document.js';
import { conflictOf, type DocumentConflict } from './offer/document-limits.js';
import { drawnDocument, type UncertainDocument } from './offer/drawn-document.js';
import { type LadderEntry, type QuoteDocument, quoteDocument } from './offer/quote-document.js';
import { certificateOf, type DocumentCertificate } from './plan-document.js';

export const OFFER_FORMAT = 'cutpoint-offer/1';

/** A judged offer as one JSON document. Money is present value unless it says margin; prices in the offer's own unit. */
export type OfferDocument = JudgedDocument | UnjudgedDocument;

export interface OfferHead {
  readonly format: typeof OFFER_FORMAT;
  readonly title: string;
  readonly units: { readonly mass: 'tonne' | 'short ton'; readonly currency: string };
  readonly offer: { readonly id: string; readonly name: string; readonly buyer: string };
}

export interface UnjudgedDocument extends OfferHead {
  readonly status: 'infeasible' | 'no certified answer' | 'cancelled';
}

export interface JudgedDocument extends OfferHead {
  readonly status: 'judged';
  readonly verdict: VerdictKind;
  readonly above?: number;
  readonly upTo?: number;
  readonly reasons: readonly VerdictReason[];
  /** Gain, present value, that signing was asked to leave. */
  readonly askedMargin: number;
  readonly gain?: Gain;
  readonly breakEven: BreakEvenAnswer;
  readonly alone: JudgedOffer['alone'];
  readonly calls: readonly CallAnswer[];
  readonly ladder?: readonly LadderEntry[];
  readonly quote?: QuoteDocument;
  /** Where the tonnes of a firm volume come from, at the breaks of the ladder. */
  readonly displacedByVolume?: DisplacedByVolume;
  /** Where it cannot be served: the share of all its volumes that can be. */
  readonly servedShare?: number;
  /** And promises and limits that cannot all hold; without any one of them the others can. */
  readonly conflict?: readonly DocumentConflict[];
  readonly displaced?: DisplacedDocument;
  readonly terms: readonly TermWorth[];
  readonly uncertain?: UncertainDocument;
  readonly certificate: { readonly without?: DocumentCertificate; readonly with?: DocumentCertificate };
  /** Whole shifts and windows as they are, or in parts; absent where there are none. */
  readonly counting?: Counting;
  /** The same of ladder, quotes, terms, calls and each material's price alone. */
  readonly detailCounting?: Counting;
  readonly names: Names;
  readonly solves: OfferSolves;
  readonly cautions: readonly string[];
}

/** The document of an answer. `volumes`: a full month's, for which a price is quoted. */
export function offerDocument(
  { plant, offer }: SignedOffer,
  answer: OfferAnswer,
  volumes: readonly number[],
  uncertain?: UncertainGain,
): OfferDocument {
  const head: OfferHead = {
    format: OFFER_FORMAT,
    title: plant.title,
    units: plant.units,
    offer: { id: offer.id, name: offer.name ?? offer.id, buyer: offer.buyer },
  };
  if (answer.status !== 'judged') return { ...head, status: answer.status };
  return withoutInfinities(judgedDocument(head, plant, answer, volumes, uncertain));
}

function judgedDocument(
  head: OfferHead,
  plant: Plant,
  answer: JudgedOffer,
  volumes: readonly number[],
  uncertain: UncertainGain | undefined,
): JudgedDocument {
  const { verdict, gain, quote, servedShare, conflict, displaced, without, signed } = answer;
  const { kind, ...verdictParts } = verdict;
  return {
    ...head,
    status: 'judged',
    verdict: kind,
    ...verdictParts,
    askedMargin: answer.margin,
    ...(gain === undefined ? {} : { gain }),
    breakEven: answer.breakEven,
    alone: answer.alone,
    calls: answer.calls,
    ...(quote === undefined ? {} : quoteDocument(plant, answer, quote, volumes)),
    ...(servedShare === undefined ? {} : { servedShare }),
    ...(conflict === undefined ? {} : { conflict: conflict.map((member) => conflictOf(plant, member)) }),
    ...(displaced === undefined ? {} : { displaced: displacedDocument(displaced) }),
    terms: answer.terms,
    ...(uncertain === undefined || uncertain.status === 'problems'
      ? {}
      : { uncertain: drawnDocument(uncertain) }),
    certificate: {
      ...(without === undefined ? {} : { without: certificateOf(plant, without.certificate) }),
      ...(signed === undefined ? {} : { with: certificateOf(plant, signed.certificate) }),
    },
    ...(answer.hasWhole ? { counting: answer.counting, detailCounting: 'in parts' as const } : {}),
    names: namesOf(plant),
    solves: answer.solves,
    cautions: CAUTIONS,
  };
}
