import { hasIntegers } from '../../program/linear-program.js';
import type { Contract } from '../../scenario/schema/scenario.js';
import type { Solver } from '../../solver/choose.js';
import type { SolveLimits } from '../../solver/port.js';
import { explainConflict } from '../conflict/explain-conflict.js';
import { Unfinished } from '../sweep/solve-point.js';
import { breakEvenAnswer } from './break-even-answer.js';
import { buyersCalls } from './buyers-calls.js';
import { displacedByVolume } from './displaced-by-volume.js';
import { displacement } from './displacement.js';
import { firmVolume } from './firm-volume.js';
import { gainOf } from './gain.js';
import type { JudgedOffer, OfferAnswer, QuoteAnswer } from './offer-answer.js';
import { offerProgram, withNothingSold } from './offer-program.js';
import { type Counting, DeclaredMissed, OfferSolver, VALUE_TOLERANCE } from './offer-solver.js';
import { termWorths } from './offer-terms.js';
import { priceParameters } from './price-parameter.js';
import { quoteUnit } from './quote.js';
import { quoteLadder } from './quote-ladder.js';
import type { SignedOffer } from './read-offer.js';
import { servedShare } from './served-share.js';
import { verdictOf } from './verdict.js';

export type OfferPart = 'ladder' | 'displaced' | 'terms' | 'calls';

export interface OfferRequest {
  /** What to answer beside verdict, gain and break-even. */
  readonly parts: ReadonlySet<OfferPart>;
  /** Gain, present value, that signing must leave. */
  readonly margin: number;
  /** The highest price, in the offer's own unit, that the buyer is thought to pay. */
  readonly priceLimit?: number;
  /** Whole shifts and windows as they are, or in parts. The ladder and the terms always count in parts. */
  readonly counting: Counting;
  /** The offer with other terms, to be compared. */
  readonly asked?: Contract;
}

/**
 * Judges an offer: whether to sign it at its price, the price at which it breaks even, and what it displaces.
 * Where the program would declare tonnes missed that it delivers, it is judged again with those months told
 * apart by whole numbers.
 */
export function judgeOffer(
  signed: SignedOffer,
  request: OfferRequest,
  solver: Solver,
  limits: SolveLimits = {},
): OfferAnswer {
  const tell = new Set<string>();
  for (;;) {
    const whole = new OfferSolver(solver, request.counting, limits);
    const inParts = new OfferSolver(solver, 'in parts', limits);
    try {
      return judge(signed, request, tell, { whole, inParts, solver, limits });
    } catch (error) {
      if (error instanceof DeclaredMissed) for (const id of error.contracts) tell.add(id);
      else if (error instanceof Unfinished) return { status: error.reason };
      else throw error;
    } finally {
      whole.close();
      inParts.close();
    }
  }
}

interface Solvers {
  readonly whole: OfferSolver;
  readonly inParts: OfferSolver;
  readonly solver: Solver;
  readonly limits: SolveLimits;
}

function judge(
  { offer, scenario, plant }: SignedOffer,
  request: OfferRequest,
  tell: ReadonlySet<string>,
  { whole, inParts, solver, limits }: Solvers,
): OfferAnswer {
  const { parts, margin } = request;
  const solves = countedBy([whole, inParts]);
  const program = offerProgram(plant, offer.id, tell);
  let without = whole.best(withNothingSold(program), 'signed');
  let own = whole.best(program.formulation, 'signed');
  if (without !== undefined) without = whole.improved(without, 'signed');
  if (without === undefined && own === undefined) return { status: 'infeasible' };
  const served = own === undefined ? servedShare(program, inParts) : undefined;
  const conflict = own === undefined ? explainConflict(plant, solver, limits) : undefined;
  const verdictSolves = solves();
  const { all, alone } = priceParameters(scenario, offer);
  const ask = (parameter: NonNullable<typeof all>) =>
    breakEvenAnswer({ program, parameter, without, own, margin }, whole);
  const breakEven = all === undefined ? NO_COMMON_PRICE : ask(all);
  const aloneAnswers = alone.map((parameter) => ({
    ...ask(parameter),
    material: parameter.material as string,
  }));
  if (without !== undefined) without = whole.improved(without, 'signed');
  if (own !== undefined) own = whole.improved(own, 'signed');
  const breakEvenSolves = solves();
  const displaced =
    parts.has('displaced') && without !== undefined && own !== undefined
      ? displacement(plant, offer.id, without, own, whole)
      : undefined;
  const displacedSolves = solves();
  const quote = parts.has('ladder') ? quoteOf() : undefined;
  const ladderSolves = solves();
  const terms = parts.has('terms') && own !== undefined ? termsOf() : [];
  const termSolves = solves();
  const calls =
    parts.has('calls') && without !== undefined
      ? buyersCalls({ scenario, offer, tell, without, margin, own, breakEven, parameter: all }, whole)
      : [];
  const callSolves = solves();
  const gain = without === undefined || own === undefined ? undefined : gainOf(without, own, displaced);
  return {
    status: 'judged',
    offer: offer.id,
    verdict: verdictOf({
      gain,
      margin,
      breakEven,
      quote,
      priceLimit: request.priceLimit,
      tolerance: VALUE_TOLERANCE * (own?.scale ?? 0),
      hasWhole: own !== undefined && hasIntegers(own.formulation.program),
      hasPlanWithout: without !== undefined,
    }),
    ...(gain === undefined ? {} : { gain }),
    breakEven,
    alone: aloneAnswers,
    calls,
    ...(quote === undefined ? {} : { quote }),
    ...(served === undefined ? {} : { servedShare: served }),
    ...(conflict?.conflict === undefined ? {} : { conflict: conflict.conflict }),
    ...(displaced === undefined ? {} : { displaced }),
    terms,
    ...(without === undefined ? {} : { without }),
    ...(own === undefined ? {} : { signed: own }),
    counting: request.counting,
    hasWhole: hasIntegers(program.formulation.program),
    margin,
    solves: {
      verdict: verdictSolves + (conflict?.solves ?? 0),
      breakEven: breakEvenSolves,
      displaced: displacedSolves,
      ladder: ladderSolves,
      terms: termSolves,
      calls: callSolves,
      total: whole.solves + inParts.solves + (conflict?.solves ?? 0),
    },
  };

  function quoteOf(): QuoteAnswer | undefined {
    const firm = firmVolume(plant, offer.id, tell);
    const ladder = firm === undefined ? undefined : quoteLadder(firm, inParts);
    if (ladder === undefined) return undefined;
    const displacedBy = displacedByVolume(ladder.plans, offer.id);
    return { ladder, unit: quoteUnit(plant, offer.id, all), displaced: displacedBy, counting: 'in parts' };
  }

  function termsOf(): JudgedOffer['terms'] {
    const base = inParts.best(program.formulation, 'signed');
    if (base === undefined) return [];
    return termWorths(scenario, offer, base, inParts, tell, request.asked);
  }
}

const NO_COMMON_PRICE = { kind: 'factor', own: 1, reason: 'no common price', solves: 0 } as const;

/** Solves since the last call. */
function countedBy(solvers: readonly OfferSolver[]): () => number {
  let before = 0;
  return () => {
    const now = solvers.reduce((sum, { solves }) => sum + solves, 0);
    const since = now - before;
    before = now;
    return since;
  };
}
