import type { Problem } from '../../issue/problem.js';
import { type Formulation, formulate } from '../../planning/formulate.js';
import { hasIntegers } from '../../program/linear-program.js';
import type { Scenario, Uncertainty } from '../../scenario/schema/scenario.js';
import type { Solver } from '../../solver/choose.js';
import type { Basis, SolveLimits } from '../../solver/port.js';
import { openWarm } from '../../solver/warm-solver.js';
import { planMonths } from '../monthly-plan.js';
import type { SolvedProgram } from '../plan-answer.js';
import { goOn, Unfinished } from '../unfinished.js';
import { readVariant } from '../variant/read-variant.js';
import { type DrawFactors, drawFactors, expectedFactor } from './draw-factors.js';
import { drawPaths } from './draw-paths.js';
import { type FactorChange, factorChanges, weightsOf } from './factor-changes.js';
import { type UncertainFactors, uncertainNumbers, withFactors } from './uncertain-numbers.js';
import { validFactors } from './valid-factors.js';

export interface RiskRequest {
  readonly seed: number;
  readonly draws: number;
}

/** All that evaluating a draw takes; plain data, so that it can be handed to a worker thread. */
export interface RiskModel {
  readonly base: unknown;
  readonly targets: readonly Uncertainty[];
  readonly factors: DrawFactors;
  /** At the expected factors. */
  readonly expected: Formulation;
  /** The plan made in advance: the best at the expected factors. */
  readonly advance: Float64Array;
  /** Where every path starts. */
  readonly basis?: Basis;
  /**
   * What the factors add to the program; absent where they do not act on it one by one on straight lines, or where
   * whole numbers are planned: each draw is then built anew.
   */
  readonly changes?: readonly FactorChange[];
  /** Paths through the draws, each from one draw to one like it: see drawPaths. */
  readonly paths: readonly (readonly number[])[];
  /** The factors, lowest and highest of each target, between which the scenario is known to be valid. */
  readonly valid: readonly (readonly [number, number])[];
}

export type RiskModelFound =
  | { readonly ok: true; readonly model: RiskModel; readonly scenario: Scenario }
  | { readonly ok: false; readonly reason: 'problems'; readonly problems: readonly Problem[] }
  | { readonly ok: false; readonly reason: 'infeasible' | 'no certified answer' | 'cancelled' };

/** Makes the draws and everything that they share. */
export function riskModel(
  document: unknown,
  request: RiskRequest,
  solver: Solver,
  limits: SolveLimits = {},
): RiskModelFound {
  try {
    return modelOf(document, request, solver, limits);
  } catch (error) {
    if (error instanceof Unfinished) return { ok: false, reason: 'cancelled' };
    throw error;
  }
}

/** @throws Unfinished */
function modelOf(
  document: unknown,
  request: RiskRequest,
  solver: Solver,
  limits: SolveLimits,
): RiskModelFound {
  const variant = readVariant(document);
  if (!variant.ok) return { ok: false, reason: 'problems', problems: variant.problems };
  const { scenario } = variant;
  const numbers = uncertainNumbers(scenario);
  if (!numbers.ok) return { ok: false, reason: 'problems', problems: numbers.problems };
  const uncertain = drawn(numbers, scenario.horizon.months, request);
  const read = readVariant(withFactors(uncertain.base, uncertain.targets, uncertain.centre));
  if (!read.ok) return { ok: false, reason: 'problems', problems: read.problems };
  const plan = planMonths(read.plant, solver, limits);
  goOn(limits.cancelled);
  if (plan.status === 'infeasible') return { ok: false, reason: 'infeasible' };
  if (plan.status !== 'optimal') return { ok: false, reason: 'no certified answer' };
  const { base, targets, factors } = uncertain;
  const start = startOf(uncertain, formulate(read.plant), plan.solved, solver, limits);
  return {
    ok: true,
    scenario,
    model: {
      base,
      targets,
      factors,
      advance: plan.solved.primal,
      ...start,
      paths: drawPaths(factors, weightsOf(targets, start.changes)),
      valid: validFactors(uncertain, limits.cancelled),
    },
  };
}

function drawn(
  { base, targets }: { readonly base: unknown; readonly targets: readonly Uncertainty[] },
  months: number,
  { seed, draws }: RiskRequest,
): UncertainFactors {
  const factors = drawFactors(targets, months, seed, draws);
  const centre = targets.map(({ distribution, eachMonth }) =>
    new Array<number>(eachMonth === true ? months : 1).fill(expectedFactor(distribution)),
  );
  return { base, targets, factors, centre };
}

/**
 * What draws are made from: the program at the expected factors, where it has no whole numbers and its plan needs none
 * to tell contracts apart, else the one that was planned with.
 *
 * @throws Unfinished
 */
function startOf(
  uncertain: UncertainFactors,
  expected: Formulation,
  { formulation, basis: kept }: SolvedProgram,
  solver: Solver,
  { cancelled }: SolveLimits,
): Pick<RiskModel, 'expected' | 'basis' | 'changes'> {
  const isPlain =
    !hasIntegers(expected.program) && formulation.program.cost.length === expected.program.cost.length;
  if (!isPlain) return { expected: formulation };
  const basis = kept ?? basisOf(expected, solver);
  const changes = factorChanges(expected, uncertain, cancelled);
  return {
    expected,
    ...(basis === undefined ? {} : { basis }),
    ...(changes === undefined ? {} : { changes }),
  };
}

function basisOf({ program }: Formulation, solver: Solver): Basis | undefined {
  const warm = openWarm(solver);
  try {
    return warm.solve(program).kind === 'solved' ? warm.basis() : undefined;
  } finally {
    warm.close();
  }
}
