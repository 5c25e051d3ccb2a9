import { derivePlant } from '../../plant/derive-plant.js';
import type { Contract, Scenario } from '../../scenario/schema/scenario.js';
import type { Best } from './best.js';
import { breakEvenAnswer } from './break-even-answer.js';
import type { CallAnswer } from './offer-answer.js';
import { type OfferProgram, offerProgram } from './offer-program.js';
import type { OfferSolver } from './offer-solver.js';
import type { PriceParameter } from './price-parameter.js';

interface CallRequest {
  readonly scenario: Scenario;
  readonly offer: Contract;
  readonly tell: ReadonlySet<string>;
  readonly without: Best;
  readonly margin: number;
  /** At the expected call. */
  readonly own: Best | undefined;
  readonly program: OfferProgram;
  readonly parameter: PriceParameter | undefined;
}

/**
 * What an offer whose volume the buyer calls is worth at the call that is expected, and where the buyer always
 * calls the minimum or the maximum. Empty for other offers.
 *
 * @throws Unfinished, DeclaredMissed
 */
export function buyersCalls(request: CallRequest, solver: OfferSolver): CallAnswer[] {
  const { offer, program, own } = request;
  const { call, monthly } = offer;
  if (call === undefined) return [];
  const expected = answerOf(request, program, own, 'expected', solver);
  const extremes = (['min', 'max'] as const).flatMap((side): CallAnswer[] => {
    const volume = monthly?.[side];
    if (volume === undefined) return [];
    const called = { ...offer, call: { ...call, expected: volume } };
    return [answerFor(request, called, side === 'min' ? 'minimum' : 'maximum', solver)];
  });
  return [expected, ...extremes];
}

function answerFor(
  request: CallRequest,
  called: Contract,
  call: CallAnswer['call'],
  solver: OfferSolver,
): CallAnswer {
  const { scenario, tell } = request;
  const contracts = scenario.contracts?.map((each) => (each.id === called.id ? called : each));
  const program = offerProgram(derivePlant({ ...scenario, contracts }), called.id, tell);
  return answerOf(request, program, solver.best(program.formulation, 'signed'), call, solver);
}

function answerOf(
  { without, margin, parameter }: CallRequest,
  program: OfferProgram,
  own: Best | undefined,
  call: CallAnswer['call'],
  solver: OfferSolver,
): CallAnswer {
  const breakEven =
    parameter === undefined
      ? ({ kind: 'factor', own: 1, reason: 'no common price', solves: 0 } as const)
      : breakEvenAnswer({ program, parameter, without, own, margin }, solver);
  return { call, ...gainAt(own, without), breakEven };
}

function gainAt(own: Best | undefined, without: Best): { gain?: number } {
  return own === undefined ? {} : { gain: own.value - without.value };
}
