import { hasIntegers } from '../../program/linear-program.js';
import type { Contract } from '../../scenario/schema/scenario.js';
import type { Solver } from '../../solver/choose.js';
import { conflictOf } from '../conflict/explain-conflict.js';
import { Unfinished } from '../unfinished.js';
import { VALUE_TOLERANCE } from './best.js';
import { breakEvenAnswer } from './break-even-answer.js';
import { countSolves } from './count-solves.js';
import { type Counting, hasShifts } from './counting.js';
import { DeclaredMissed } from './declared-missed.js';
import { displacement } from './displacement.js';
import { gainOf } from './gain.js';
import type { JudgedOffer, OfferAnswer } from './offer-answer.js';
import { offerDetails } from './offer-details.js';
import { improvedPair, type OfferPair, offerPair } from './offer-pair.js';
import { type OfferProgram, offerProgram } from './offer-program.js';
import { type OfferLimits, OfferSolver } from './offer-solver.js';
import { type PriceParameters, priceParameters } from './price-parameter.js';
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
  /**
   * Whole shifts and windows as they are, or in parts. Whole: the verdict, the gain, the break-even and the two
   * plans; each material's price alone, the calls, the ladder and the terms always count in parts.
   */
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
  limits: OfferLimits = {},
): OfferAnswer {
  const tell = new Set<string>();
  for (;;) {
    const program = offerProgram(signed.plant, signed.offer.id, tell);
    const inParts = new OfferSolver(solver, 'in parts', limits);
    const isWhole = request.counting === 'whole' && hasShifts(program.formulation.program);
    const whole = isWhole ? new OfferSolver(solver, 'whole', limits) : inParts;
    try {
      return judge({ signed, request, tell, program, whole, inParts, solver });
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

interface Judgement {
  readonly signed: SignedOffer;
  readonly request: OfferRequest;
  readonly tell: ReadonlySet<string>;
  readonly program: OfferProgram;
  /** Of the verdict, the break-even and the two plans; the same as the other where nothing is whole. */
  readonly whole: OfferSolver;
  readonly inParts: OfferSolver;
  readonly solver: Solver;
}

function judge(judgement: Judgement): OfferAnswer {
  const { signed, request, program, whole, inParts } = judgement;
  const { offer, plant, scenario } = signed;
  const solves = countSolves(new Set([whole, inParts]));
  // In parts first: it is quick and shows at once which months must be told apart.
  const rough = offerPair(program, inParts);
  const first = whole === inParts ? rough : offerPair(program, whole);
  if (first.without === undefined && first.own === undefined) return { status: 'infeasible' };
  const unserved = first.own === undefined ? whyUnserved(judgement) : undefined;
  const verdictSolves = solves() + (unserved?.solves ?? 0);
  const parameters = priceParameters(scenario, offer);
  const breakEven = breakEvenOf(judgement, parameters, first);
  const pair = improvedPair(first, whole);
  const { without, own } = pair;
  const breakEvenSolves = solves();
  const displaced =
    request.parts.has('displaced') && without !== undefined && own !== undefined
      ? displacement(plant, offer.id, without, own, whole)
      : undefined;
  const displacedSolves = solves();
  const details = offerDetails({ ...judgement, parameters, pair: rough }, inParts, solves);
  const { solves: detailSolves, ...answers } = details;
  const counts = {
    verdict: verdictSolves,
    breakEven: breakEvenSolves,
    displaced: displacedSolves,
    ...detailSolves,
  };
  const gain = without === undefined || own === undefined ? undefined : gainOf(without, own, displaced);
  return {
    status: 'judged',
    offer: offer.id,
    verdict: verdictOf({
      gain,
      margin: request.margin,
      breakEven,
      quote: details.quote,
      priceLimit: request.priceLimit,
      tolerance: VALUE_TOLERANCE * (own?.scale ?? 0),
      hasWhole: own !== undefined && hasIntegers(own.formulation.program),
      hasPlanWithout: without !== undefined,
    }),
    ...(gain === undefined ? {} : { gain }),
    breakEven,
    ...answers,
    ...unserved?.answer,
    ...(displaced === undefined ? {} : { displaced }),
    ...(without === undefined ? {} : { without }),
    ...(own === undefined ? {} : { signed: own }),
    counting: request.counting,
    hasWhole: hasShifts(program.formulation.program),
    margin: request.margin,
    solves: { ...counts, total: Object.values(counts).reduce((sum, count) => sum + count, 0) },
  };
}

function breakEvenOf(
  { request, program, whole }: Judgement,
  { all }: PriceParameters,
  pair: OfferPair,
): JudgedOffer['breakEven'] {
  if (all === undefined) return { kind: 'factor', own: 1, reason: 'no common price', solves: 0 };
  return breakEvenAnswer({ program, parameter: all, ...pair, margin: request.margin }, whole);
}

/** What part of it can be served, and what stands against the whole of it. `solves`: those of the conflict. */
function whyUnserved({ signed, program, inParts, solver }: Judgement): {
  readonly answer: Pick<JudgedOffer, 'servedShare' | 'conflict'>;
  readonly solves: number;
} {
  const share = servedShare(program, inParts);
  const found = conflictOf(signed.plant, solver);
  return {
    answer: {
      ...(share === undefined ? {} : { servedShare: share }),
      ...(found.conflict === undefined ? {} : { conflict: found.conflict }),
    },
    solves: found.solves,
  };
}
