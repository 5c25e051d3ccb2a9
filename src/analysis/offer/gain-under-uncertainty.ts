import type { Problem } from '../../issue/problem.js';
import type { Contract, Scenario } from '../../scenario/schema/scenario.js';
import type { Solver } from '../../solver/choose.js';
import { type Distribution, distributionOf } from '../risk/distribution.js';
import { type DrawHooks, type DrawOutcome, evaluateDraws } from '../risk/evaluate-draws.js';
import { type RiskRequest, riskModel } from '../risk/risk-model.js';
import type { SignedOffer } from './read-offer.js';

/** What signing gains when the scenario's uncertain numbers turn out as drawn. Present value. */
export type UncertainGain =
  | DrawnGain
  | { readonly status: 'problems'; readonly problems: readonly Problem[] }
  | { readonly status: 'infeasible' | 'no certified answer' | 'cancelled' | 'nothing uncertain' };

export interface DrawnGain {
  /** `partial`: stopped before all draws were evaluated. */
  readonly status: 'complete' | 'partial';
  readonly seed: number;
  readonly draws: number;
  /** Both plans made in advance and kept, over the draws in which both can be. */
  readonly kept: GainSample;
  /** Both plans made anew once the numbers are known. */
  readonly remade: GainSample;
  /** Draws without a plan, by which side lacks it. */
  readonly withoutPlan: { readonly without: number; readonly signed: number; readonly both: number };
}

export interface GainSample {
  /** Absent where no draw has a gain. */
  readonly distribution?: Distribution;
  /** Share of the draws in which it would have been better not to sign. */
  readonly regret?: number;
  /** In the order of the draws that were evaluated; absent where the draw has none. */
  readonly gains: readonly (number | undefined)[];
}

/**
 * Draws the scenario's uncertain numbers once, for the plan without the offer and for the plan with it alike. Crews
 * are taken as paid by the hour, which is what shifts and windows in parts come to: a whole-number search for each
 * draw would take hours.
 */
export function gainUnderUncertainty(
  { scenario, offer }: SignedOffer,
  request: RiskRequest,
  solver: Solver,
  hooks: DrawHooks = {},
): UncertainGain {
  const withOffer = (contract: Contract): Scenario => ({
    ...scenario,
    crews: scenario.crews?.map((crew) => ({ ...crew, staffing: 'hourly' as const })),
    contracts: scenario.contracts?.map((each) => (each.id === offer.id ? contract : each)),
  });
  const models = [withOffer(withoutVolume(offer)), withOffer(offer)].map((document) =>
    riskModel(document, request, solver, { cancelled: hooks.cancelled }),
  );
  const outcomes: ReadonlyMap<number, DrawOutcome>[] = [];
  for (const found of models) {
    if (!found.ok) {
      return found.reason === 'problems'
        ? { status: 'problems', problems: found.problems }
        : { status: found.reason === 'cancelled' ? 'no certified answer' : found.reason };
    }
    const { model } = found;
    if (model.targets.length === 0) return { status: 'nothing uncertain' };
    const evaluated = model.paths.flatMap((path) => evaluateDraws(model, path, solver, hooks));
    outcomes.push(new Map(evaluated.map(({ draw, outcome }) => [draw, outcome])));
  }
  const [before, after] = outcomes;
  const pairs = Array.from({ length: request.draws }, (_, draw) => [
    before.get(draw),
    after.get(draw),
  ]).filter((pair): pair is [DrawOutcome, DrawOutcome] => pair.every((outcome) => outcome !== undefined));
  return {
    status: pairs.length === request.draws ? 'complete' : 'partial',
    seed: request.seed,
    draws: request.draws,
    kept: sampleOf(pairs, (outcome) => (outcome.kind === 'planned' ? outcome.kept : undefined)),
    remade: sampleOf(pairs, (outcome) => (outcome.kind === 'planned' ? outcome.value : undefined)),
    withoutPlan: countsOf(pairs),
  };
}

/** The offer with nothing promised: the numbers of its price stay where they can be drawn. */
function withoutVolume(offer: Contract): Contract {
  const { term: _, call: __, shortfall: ___, ...rest } = offer;
  return { ...rest, monthly: { max: 0 } };
}

type Pair = readonly [DrawOutcome, DrawOutcome];

function sampleOf(
  pairs: readonly Pair[],
  figureOf: (outcome: DrawOutcome) => number | undefined,
): GainSample {
  const gains = pairs.map(([before, after]) => {
    const [one, other] = [figureOf(before), figureOf(after)];
    return one === undefined || other === undefined ? undefined : other - one;
  });
  const sample = gains.filter((gain) => gain !== undefined);
  const distribution = distributionOf(sample);
  if (distribution === undefined) return { gains };
  return { distribution, regret: sample.filter((gain) => gain < 0).length / sample.length, gains };
}

function countsOf(pairs: readonly Pair[]): DrawnGain['withoutPlan'] {
  const lacks = (outcome: DrawOutcome) => outcome.kind !== 'planned';
  const count = (is: (pair: Pair) => boolean) => pairs.filter(is).length;
  return {
    without: count(([before, after]) => lacks(before) && !lacks(after)),
    signed: count(([before, after]) => !lacks(before) && lacks(after)),
    both: count(([before, after]) => lacks(before) && lacks(after)),
  };
}
