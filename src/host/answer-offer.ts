import type { Counting } from '../analysis/offer/counting.js';
import { gainUnderUncertainty } from '../analysis/offer/gain-under-uncertainty.js';
import { judgeOffer, type OfferPart } from '../analysis/offer/judge-offer.js';
import { bestSet, type OfferSetsAnswer } from '../analysis/offer/offer-sets.js';
import type { OfferLimits } from '../analysis/offer/offer-solver.js';
import { type OfferSource, readOffer, readOffers, type SignedOffer } from '../analysis/offer/read-offer.js';
import { mergePatch } from '../analysis/variant/merge-patch.js';
import type { Problem } from '../issue/problem.js';
import { type OfferDocument, offerDocument } from '../report/offer-document.js';
import type { Series } from '../scenario/schema/figures.js';
import type { Contract } from '../scenario/schema/scenario.js';
import type { Solver } from '../solver/choose.js';
import type { SolveLimits } from '../solver/port.js';

/** What is asked of one offer; plain data. */
export interface OfferQuestion {
  readonly source: OfferSource;
  readonly parts: readonly OfferPart[];
  /** Gain, present value, that signing must leave. */
  readonly margin: number;
  /** In the offer's own unit. */
  readonly priceLimit?: number;
  readonly counting: Counting;
  /** Monthly volumes to quote a price for, beside those that the offer names. */
  readonly volumes: readonly number[];
  /** A merge patch on the offer: other terms, to be compared. */
  readonly change?: unknown;
  readonly uncertain?: { readonly seed: number; readonly draws: number };
}

export interface OffersQuestion {
  readonly sources: readonly OfferSource[];
  /** Ids of offers that may be signed in part. */
  readonly divisible: readonly string[];
  readonly counting: Counting;
}

export type OfferReply =
  | { readonly kind: 'problems'; readonly problems: readonly Problem[] }
  | { readonly kind: 'document'; readonly document: OfferDocument };

/** Limits of an answer; of the solves with whole shifts, the seconds for all of them together. */
export interface OfferAnswerLimits extends Omit<SolveLimits, 'seconds'> {
  readonly wholeSeconds?: number;
}

/** For the solves with whole shifts, unless the user says otherwise: somebody is on the telephone. */
export const WHOLE_SECONDS = 8;

/** Judges one offer to a scenario that was read from JSON. */
export function answerOffer(
  document: unknown,
  question: OfferQuestion,
  solver: Solver,
  limits: OfferAnswerLimits = {},
): OfferReply {
  const signed = readOffer(document, question.source);
  if (!signed.ok) return { kind: 'problems', problems: signed.problems };
  const { margin, priceLimit, counting, change, uncertain } = question;
  const asked = change === undefined ? undefined : changedOffer(document, signed, change);
  if (asked !== undefined && !asked.ok) return { kind: 'problems', problems: asked.problems };
  const request = {
    parts: new Set(question.parts),
    margin,
    counting,
    ...(priceLimit === undefined ? {} : { priceLimit }),
    ...(asked === undefined ? {} : { asked: asked.offer }),
  };
  const answer = judgeOffer(signed, request, solver, timed(limits));
  const drawn =
    uncertain === undefined
      ? undefined
      : gainUnderUncertainty(signed, uncertain, solver, { cancelled: limits.cancelled });
  if (drawn?.status === 'problems') return { kind: 'problems', problems: drawn.problems };
  const volumes = [...new Set([...volumesOf(signed.offer), ...question.volumes])].sort((a, b) => a - b);
  return { kind: 'document', document: offerDocument(signed, answer, volumes, drawn) };
}

/** Which of several offers to sign. */
export function answerOffers(
  document: unknown,
  { sources, divisible, counting }: OffersQuestion,
  solver: Solver,
  limits: OfferAnswerLimits = {},
): { readonly kind: 'problems'; readonly problems: readonly Problem[] } | OfferSetsAnswer {
  const signed = readOffers(document, sources);
  if (!signed.ok) return { kind: 'problems', problems: signed.problems };
  const request = { offers: signed.offers, divisible: new Set(divisible), counting };
  return bestSet(signed.plant, request, solver, timed(limits));
}

function timed({ wholeSeconds = WHOLE_SECONDS, ...limits }: OfferAnswerLimits): OfferLimits {
  const end = performance.now() + wholeSeconds * 1000;
  return { ...limits, secondsLeft: () => (end - performance.now()) / 1000 };
}

function changedOffer(document: unknown, { offer }: SignedOffer, change: unknown) {
  return readOffer(document, { document: mergePatch(offer, change) });
}

/** The monthly minimum and maximum, or the expected call, where each is one figure. */
function volumesOf({ monthly, call }: Contract): number[] {
  const figures: (Series<number> | undefined)[] = [monthly?.min, monthly?.max, call?.expected];
  return figures.filter((figure): figure is number => typeof figure === 'number' && figure > 0);
}
