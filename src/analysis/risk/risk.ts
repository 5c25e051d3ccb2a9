import type { Problem } from '../../issue/problem.js';
import type { Limit } from '../sweep/feasible-range.js';
import { type Distribution, distributionOf, shortfallBelow } from './distribution.js';
import { BATCH } from './draw-paths.js';
import type { DrawOutcome, EvaluatedDraw } from './evaluate-draws.js';
import type { RiskModel } from './risk-model.js';

export interface RiskAnswer {
  /** `partial`: stopped before all draws were evaluated; the figures are those of the first ones. */
  readonly status: 'complete' | 'partial';
  readonly seed: number;
  readonly draws: number;
  readonly evaluated: number;
  /** Stopped so early that the draws are alike: they are no sample of all. */
  readonly areAlike?: true;
  /** Present value of the best plan of each draw that has one; absent where none has. */
  readonly distribution?: Distribution;
  /** Present values in the order of draws; absent where the draw has no plan. */
  readonly values: readonly (number | undefined)[];
  readonly shortfall?: { readonly level: number; readonly share: number; readonly mean: number };
  readonly withoutPlan: WithoutPlan;
  readonly rungs: readonly RungUse[];
  readonly advance: AdvancePlan;
}

/** Draws that have no plan, counted, never dropped in silence. */
export interface WithoutPlan {
  readonly infeasible: number;
  readonly invalid: number;
  readonly uncertified: number;
  /** What makes scenarios invalid, by pointer, most frequent first, with the message of the first. */
  readonly problems: readonly {
    readonly pointer: string;
    readonly draws: number;
    readonly message: string;
  }[];
  /** The limits that stop the way from the expected figures to the drawn ones, most frequent first. */
  readonly limits: readonly { readonly limit: Limit; readonly draws: number }[];
  /** The first infeasible draws by their place in the order. */
  readonly firstInfeasible: readonly number[];
}

/** How often material leaves the plant at a rung, over the draws that have a plan. */
export interface RungUse {
  readonly material: string;
  /** Share of those draws in which any of it leaves. */
  readonly share: number;
  /** Mean mass over all of them. */
  readonly mass: number;
}

/** The plan made in advance, at the expected factors, against one made after the draw. */
export interface AdvancePlan {
  /** Draws in which it meets every limit. */
  readonly kept: number;
  /** Draws in which it does not: it would have to change whatever it earns. */
  readonly broken: number;
  /** What it loses against the best plan of the draw, over the draws in which it is kept. */
  readonly loss?: Distribution;
}

export type RiskOutcome =
  | RiskAnswer
  | { readonly status: 'problems'; readonly problems: readonly Problem[] }
  | { readonly status: 'infeasible' | 'no certified answer' | 'cancelled' };

/** Mass below which nothing leaves. */
const NOTHING = 1e-6;

const FIRST_INFEASIBLE = 20;

/** What is asked of the draws that were evaluated; stopped before the first one there is no answer. */
export function riskOutcome(
  model: Pick<RiskModel, 'expected' | 'factors'>,
  evaluated: readonly EvaluatedDraw[],
  request: { readonly seed: number; readonly level?: number },
): RiskAnswer | { readonly status: 'cancelled' } {
  return evaluated.length === 0 ? { status: 'cancelled' } : riskAnswer(model, evaluated, request);
}

/**
 * The figures of a risk analysis, summed in the order of draws whatever order they were evaluated in. Of a
 * stopped one they are those of the whole batches, where there is one: a part of a batch is draws that are alike.
 */
export function riskAnswer(
  { expected, factors }: Pick<RiskModel, 'expected' | 'factors'>,
  evaluated: readonly EvaluatedDraw[],
  { seed, level }: { readonly seed: number; readonly level?: number },
): RiskAnswer {
  const { counted, areAlike } = countedDraws(evaluated, factors.length);
  const outcomes = counted.map(({ outcome }) => outcome);
  const planned = outcomes.filter((outcome) => outcome.kind === 'planned');
  const sample = planned.map(({ value }) => value);
  const distribution = distributionOf(sample);
  const losses = planned.flatMap(({ value, kept }) =>
    kept === undefined ? [] : [Math.max(0, value - kept)],
  );
  const loss = distributionOf(losses);
  return {
    status: outcomes.length === factors.length ? 'complete' : 'partial',
    seed,
    draws: factors.length,
    evaluated: outcomes.length,
    ...(areAlike ? { areAlike } : {}),
    ...(distribution === undefined ? {} : { distribution }),
    values: outcomes.map((outcome) => (outcome.kind === 'planned' ? outcome.value : undefined)),
    ...(level === undefined || sample.length === 0
      ? {}
      : { shortfall: { level, ...shortfallBelow(sample, level) } }),
    withoutPlan: withoutPlan(counted),
    rungs: expected.plant.materials.map(({ id }, m) => ({
      material: id,
      share: planned.filter(({ left }) => left[m] > NOTHING).length / Math.max(1, planned.length),
      mass: planned.reduce((sum, { left }) => sum + left[m], 0) / Math.max(1, planned.length),
    })),
    advance: {
      kept: losses.length,
      broken: planned.length - losses.length,
      ...(loss === undefined ? {} : { loss }),
    },
  };
}

/** The draws that count, in their order. */
function countedDraws(evaluated: readonly EvaluatedDraw[], draws: number) {
  const sorted = [...evaluated].sort((a, b) => a.draw - b.draw);
  const batchOf = ({ draw }: EvaluatedDraw) => Math.floor(draw / BATCH);
  const counts = new Map<number, number>();
  for (const one of sorted) counts.set(batchOf(one), (counts.get(batchOf(one)) ?? 0) + 1);
  const isWhole = (one: EvaluatedDraw) =>
    counts.get(batchOf(one)) === Math.min(BATCH, draws - BATCH * batchOf(one));
  const whole = sorted.filter(isWhole);
  return whole.length > 0
    ? { counted: whole, areAlike: false as const }
    : { counted: sorted, areAlike: true as const };
}

function withoutPlan(counted: readonly EvaluatedDraw[]): WithoutPlan {
  const outcomes = counted.map(({ outcome }) => outcome);
  const count = (kind: DrawOutcome['kind']) => outcomes.filter((outcome) => outcome.kind === kind).length;
  const problems = new Map<string, { pointer: string; draws: number; message: string }>();
  for (const outcome of outcomes) {
    if (outcome.kind !== 'invalid') continue;
    const { pointer, message } = outcome;
    const known = problems.get(pointer) ?? { pointer, draws: 0, message };
    problems.set(pointer, { ...known, draws: known.draws + 1 });
  }
  return {
    infeasible: count('infeasible'),
    invalid: count('invalid'),
    uncertified: count('uncertified'),
    problems: [...problems.values()].sort((a, b) => b.draws - a.draws || (a.pointer < b.pointer ? -1 : 1)),
    limits: limitsOf(outcomes),
    firstInfeasible: counted
      .flatMap(({ draw, outcome }) => (outcome.kind === 'infeasible' ? [draw] : []))
      .slice(0, FIRST_INFEASIBLE),
  };
}

function limitsOf(outcomes: readonly DrawOutcome[]): { limit: Limit; draws: number }[] {
  const tally = new Map<string, { limit: Limit; draws: number }>();
  for (const outcome of outcomes) {
    if (outcome.kind !== 'infeasible') continue;
    for (const limit of outcome.limits) {
      const key = JSON.stringify(limit);
      tally.set(key, { limit, draws: (tally.get(key)?.draws ?? 0) + 1 });
    }
  }
  return [...tally.values()].sort((a, b) => b.draws - a.draws);
}
