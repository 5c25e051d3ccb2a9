import type { Problem } from '../../issue/problem.js';
import { type Formulation, formulate } from '../../planning/formulate.js';
import { derivePlant } from '../../plant/derive-plant.js';
import { type AffineChange, changeBetween, changedBy } from '../../program/affine-change.js';
import { hasIntegers } from '../../program/linear-program.js';
import type { Scenario, Uncertainty } from '../../scenario/schema/scenario.js';
import type { Solver } from '../../solver/choose.js';
import type { Basis, SolveLimits } from '../../solver/port.js';
import { openWarm } from '../../solver/warm-solver.js';
import { planMonths } from '../monthly-plan.js';
import { goOn, Unfinished } from '../unfinished.js';
import { agree } from '../variant/affine-pieces.js';
import { readVariant } from '../variant/read-variant.js';
import { type DrawFactors, drawFactors, expectedFactor } from './draw-factors.js';
import { drawPaths } from './draw-paths.js';
import { uncertainNumbers, withFactors } from './uncertain-numbers.js';
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
   * What one unit of each factor adds to the program, [target][month or whole]; absent where the factors do not
   * act on it one by one on straight lines, or where whole numbers are planned: each draw is then built anew.
   */
  readonly changes?: readonly (readonly AffineChange[])[];
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
  { seed, draws }: RiskRequest,
  solver: Solver,
  limits: SolveLimits,
): RiskModelFound {
  const variant = readVariant(document);
  if (!variant.ok) return { ok: false, reason: 'problems', problems: variant.problems };
  const { scenario } = variant;
  const numbers = uncertainNumbers(scenario);
  if (!numbers.ok) return { ok: false, reason: 'problems', problems: numbers.problems };
  const { targets, base } = numbers;
  const months = scenario.horizon.months;
  const factors = drawFactors(targets, months, seed, draws);
  const centre = targets.map(({ distribution, eachMonth }) =>
    new Array<number>(eachMonth === true ? months : 1).fill(expectedFactor(distribution)),
  );
  const read = readVariant(withFactors(base, targets, centre));
  if (!read.ok) return { ok: false, reason: 'problems', problems: read.problems };
  const plan = planMonths(read.plant, solver, limits);
  goOn(limits.cancelled);
  if (plan.status === 'infeasible') return { ok: false, reason: 'infeasible' };
  if (plan.status !== 'optimal') return { ok: false, reason: 'no certified answer' };
  const expected = formulate(read.plant);
  const { formulation, primal: advance } = plan.solved;
  const isPlain =
    !hasIntegers(expected.program) && formulation.program.cost.length === expected.program.cost.length;
  const shared = {
    base,
    targets,
    factors,
    advance,
    paths: drawPaths(factors),
    valid: validFactors(base, targets, factors, centre, limits.cancelled),
  };
  const held = isPlain ? expected : formulation;
  if (!isPlain) return { ok: true, scenario, model: { ...shared, expected: held } };
  const basis = basisOf(expected, solver);
  const changes = changesOf(expected, { base, targets, factors, centre }, limits.cancelled);
  return {
    ok: true,
    scenario,
    model: {
      ...shared,
      expected,
      ...(basis === undefined ? {} : { basis }),
      ...(changes === undefined ? {} : { changes }),
    },
  };
}

/** The program of a draw by its factors, from what each of them adds. */
export function programOfDraw(
  { expected, targets }: Pick<RiskModel, 'expected' | 'targets'>,
  changes: readonly (readonly AffineChange[])[],
  factors: readonly (readonly number[])[],
): Formulation['program'] {
  const moved = changes.flatMap((own, k) => {
    const centre = expectedFactor(targets[k].distribution);
    return own.map((change, t) => ({ change, theta: factors[k][t] - centre }));
  });
  return changedBy(expected.program, moved);
}

function basisOf({ program }: Formulation, solver: Solver): Basis | undefined {
  const warm = openWarm(solver);
  try {
    return warm.solve(program).kind === 'solved' ? warm.basis() : undefined;
  } finally {
    warm.close();
  }
}

interface Parts {
  readonly base: unknown;
  readonly targets: readonly Uncertainty[];
  readonly factors: DrawFactors;
  readonly centre: readonly (readonly number[])[];
}

/** The step by which a factor is moved to see what it reaches. */
const STEP = 0.0625;

/** How many of the draws are built in full to see that the changes add up to them. */
const PROVED_BY = 3;

function changesOf(
  expected: Formulation,
  parts: Parts,
  cancelled: (() => boolean) | undefined,
): AffineChange[][] | undefined {
  const { base, targets, factors, centre } = parts;
  const build = (at: readonly (readonly number[])[]) => {
    goOn(cancelled);
    const document = withFactors(base, targets, at) as Scenario;
    return formulate(derivePlant(document)).program;
  };
  const changes: AffineChange[][] = [];
  try {
    for (const [k, own] of centre.entries()) {
      const steps = own.map((_, t) => {
        const moved = centre.map((row, i) =>
          i === k ? row.map((value, s) => (s === t ? value + STEP : value)) : row,
        );
        return changeBetween(expected.program, build(moved), STEP);
      });
      if (steps.includes(undefined)) return undefined;
      changes.push(steps as AffineChange[]);
    }
    const isSum = extremes(factors).every((draw) => {
      const predicted = programOfDraw({ expected, targets }, changes, draw);
      return agree(predicted, build(draw), [expected.program]);
    });
    return isSum ? changes : undefined;
  } catch (error) {
    // A draw at which no plant can be derived: each draw is then checked by itself.
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/** The draws that lie farthest out, and the first ones. */
function extremes(factors: DrawFactors): DrawFactors {
  const sums = factors.map((draw) => draw.flat().reduce((sum, factor) => sum + factor, 0));
  const ranked = factors.map((_, i) => i).sort((a, b) => sums[a] - sums[b]);
  const farthest = [...ranked.slice(0, 2), ...ranked.slice(-2)].map((i) => factors[i]);
  return [...factors.slice(0, PROVED_BY), ...farthest];
}
