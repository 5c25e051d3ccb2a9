import { breakEvenAnswer } from './break-even-answer.js';
import { buyersCalls } from './buyers-calls.js';
import type { SolveCount } from './count-solves.js';
import { displacedByVolume } from './displaced-by-volume.js';
import { firmVolume } from './firm-volume.js';
import type { OfferRequest } from './judge-offer.js';
import type { CallAnswer, JudgedOffer, QuoteAnswer } from './offer-answer.js';
import type { OfferPair } from './offer-pair.js';
import type { OfferProgram } from './offer-program.js';
import type { OfferSolver } from './offer-solver.js';
import { termWorths } from './offer-terms.js';
import type { PriceParameters } from './price-parameter.js';
import { quoteUnit } from './quote.js';
import { quoteLadder } from './quote-ladder.js';
import type { SignedOffer } from './read-offer.js';

/** What is answered about an offer beside the verdict, with shifts and windows in parts. */
export type OfferDetails = Pick<JudgedOffer, 'alone' | 'quote' | 'terms' | 'calls'> & {
  readonly solves: Pick<JudgedOffer['solves'], 'alone' | 'ladder' | 'terms' | 'calls'>;
};

interface DetailsRequest {
  readonly signed: SignedOffer;
  readonly request: OfferRequest;
  readonly tell: ReadonlySet<string>;
  readonly program: OfferProgram;
  readonly parameters: PriceParameters;
  /** In parts. */
  readonly pair: OfferPair;
}

/** @throws Unfinished, DeclaredMissed */
export function offerDetails(asked: DetailsRequest, solver: OfferSolver, solves: SolveCount): OfferDetails {
  const { signed, request, tell, program, parameters, pair } = asked;
  const { offer, scenario } = signed;
  const { parts, margin } = request;
  const alone = parameters.alone.map((parameter) => ({
    ...breakEvenAnswer({ program, parameter, ...pair, margin }, solver),
    material: parameter.material as string,
  }));
  const aloneSolves = solves();
  const quote = parts.has('ladder') ? quoteOf(asked, solver) : undefined;
  const ladderSolves = solves();
  const { own } = pair;
  const terms =
    parts.has('terms') && own !== undefined
      ? termWorths(scenario, offer, own, solver, tell, request.asked)
      : [];
  const termSolves = solves();
  const calls = parts.has('calls') ? callsOf(asked, solver) : [];
  return {
    alone,
    ...(quote === undefined ? {} : { quote }),
    terms,
    calls,
    solves: { alone: aloneSolves, ladder: ladderSolves, terms: termSolves, calls: solves() },
  };
}

function quoteOf({ signed, tell, parameters }: DetailsRequest, solver: OfferSolver): QuoteAnswer | undefined {
  const { plant, offer } = signed;
  const firm = firmVolume(plant, offer.id, tell);
  const ladder = firm === undefined ? undefined : quoteLadder(firm, solver);
  if (ladder === undefined) return undefined;
  const displaced = displacedByVolume(ladder.plans, offer.id);
  return { ladder, unit: quoteUnit(plant, offer.id, parameters.all), displaced };
}

function callsOf(
  { signed, request, tell, program, parameters, pair }: DetailsRequest,
  solver: OfferSolver,
): CallAnswer[] {
  const { offer, scenario } = signed;
  const { without, own } = pair;
  if (without === undefined || offer.call === undefined) return [];
  const { margin } = request;
  const asked = { scenario, offer, tell, program, without, margin, own, parameter: parameters.all };
  return buyersCalls(asked, solver);
}
