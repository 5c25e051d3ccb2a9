import { type Formulation, formulate } from '../../planning/formulate.js';
import { changeBetween } from '../../program/affine-change.js';
import { CERTIFICATE_TOLERANCE, primalViolation } from '../../program/certificate.js';
import { hasIntegers, objectiveAt } from '../../program/linear-program.js';
import type { Solver } from '../../solver/choose.js';
import type { SolveLimits } from '../../solver/port.js';
import { openWarm, type WarmSolver } from '../../solver/warm-solver.js';
import { planMonths } from '../monthly-plan.js';
import { type DeclaredTonnesCheck, declaredTonnesCheck } from '../sweep/declared-tonnes.js';
import { edgeOf, type Limit } from '../sweep/feasible-range.js';
import { readVariant } from '../variant/read-variant.js';
import { programOfDraw } from './factor-changes.js';
import { limitsInConflict } from './limits-in-conflict.js';
import type { RiskModel } from './risk-model.js';
import { withFactors } from './uncertain-numbers.js';

/** What came of one draw. Money is present value. */
export type DrawOutcome =
  | {
      readonly kind: 'planned';
      readonly value: number;
      readonly scale: number;
      /** Of the plan made in advance, at the drawn figures; absent where it cannot be kept. */
      readonly kept?: number;
      /** Mass that leaves the plant as each material, in the plant's order. */
      readonly left: readonly number[];
    }
  | { readonly kind: 'invalid'; readonly pointer: string; readonly message: string }
  /** The limits that stand against each other; empty where they are not known. */
  | { readonly kind: 'infeasible'; readonly limits: readonly Limit[] }
  | { readonly kind: 'uncertified' };

export interface DrawHooks {
  readonly cancelled?: () => boolean;
  /** After each draw, with the number of draws so far. */
  readonly onDraw?: (done: number, outcome: DrawOutcome) => void;
}

/** What came of one draw, with its place in the order of draws. */
export interface EvaluatedDraw {
  readonly draw: number;
  readonly outcome: DrawOutcome;
}

/**
 * Evaluates the draws of one path, from the base basis on. The answer does not depend on what was solved before
 * the path. Stops where it is cancelled: what is missing was not evaluated.
 */
export function evaluateDraws(
  model: RiskModel,
  path: readonly number[],
  solver: Solver,
  hooks: DrawHooks = {},
): EvaluatedDraw[] {
  const warm = openWarm(solver);
  const limits: SolveLimits = hooks.cancelled === undefined ? {} : { cancelled: hooks.cancelled };
  const isFree = declaredTonnesCheck(model.expected);
  const evaluated: EvaluatedDraw[] = [];
  try {
    for (const draw of path) {
      if (hooks.cancelled?.() === true) break;
      const outcome = evaluate(model, draw, { warm, solver, limits, isFree });
      if (outcome === 'cancelled') break;
      evaluated.push({ draw, outcome });
      hooks.onDraw?.(evaluated.length, outcome);
    }
  } finally {
    warm.close();
  }
  return evaluated;
}

/** What the draws of a path are solved with. */
interface Means {
  readonly warm: WarmSolver;
  readonly solver: Solver;
  readonly limits: SolveLimits;
  readonly isFree: DeclaredTonnesCheck;
}

function evaluate(model: RiskModel, draw: number, means: Means): DrawOutcome | 'cancelled' {
  const { solver, limits } = means;
  const factors = model.factors[draw];
  if (model.changes !== undefined && isKnownValid(model, factors)) {
    const program = programOfDraw(model, model.changes, factors);
    const quick = solveDraw(model, { ...model.expected, program }, means);
    if (quick !== undefined) return quick;
  }
  const variant = readVariant(withFactors(model.base, model.targets, factors));
  if (!variant.ok) {
    const [{ pointer, message }] = variant.problems;
    return { kind: 'invalid', pointer, message };
  }
  const formulation = formulate(variant.plant);
  if (!hasIntegers(formulation.program)) {
    const solved = solveDraw(model, formulation, { ...means, isFree: declaredTonnesCheck(formulation) });
    if (solved !== undefined) return solved;
  }
  const answer = planMonths(variant.plant, solver, limits);
  if (answer.status === 'infeasible') {
    return { kind: 'infeasible', limits: limitsInConflict(formulation.program, solver) };
  }
  if (limits.cancelled?.() === true) return 'cancelled';
  if (answer.status !== 'optimal') return { kind: 'uncertified' };
  const { presentValue: value, scale } = answer.plan.statement;
  const { formulation: planned, primal } = answer.solved;
  return { kind: 'planned', value, scale, ...keptAt(model, formulation), left: leaving(planned, primal) };
}

/** Undefined where the linear program's answer may not be taken for the plan's. */
function solveDraw(
  model: RiskModel,
  formulation: Formulation,
  { warm, solver, limits, isFree }: Means,
): DrawOutcome | 'cancelled' | undefined {
  const { program } = formulation;
  startFromBasis(model, warm);
  const answer = warm.solve(program, limits);
  if (answer.kind === 'infeasible')
    return { kind: 'infeasible', limits: limitsOnTheWay(model, program, solver) };
  if (answer.kind === 'stopped' && answer.reason === 'cancelled') return 'cancelled';
  if (answer.kind !== 'solved') return { kind: 'uncertified' };
  const { primal } = answer.answer;
  const point = {
    at: 0,
    program,
    primal,
    rowDual: answer.rowDual,
    value: answer.certificate.objective,
    scale: answer.certificate.scale,
  };
  if (!isFree(point, point)) return undefined;
  const { value, scale } = point;
  return { kind: 'planned', value, scale, ...keptAt(model, formulation), left: leaving(formulation, primal) };
}

/** The start of a path, and again after an engine that had to be opened anew: the expected program's basis. */
function startFromBasis({ basis, expected }: RiskModel, warm: WarmSolver): void {
  if (basis === undefined || warm.isOpen) return;
  warm.open(expected.program);
  warm.startFrom(basis);
}

/**
 * The limits that hold where the straight way from the expected program to the drawn one ends; where there is no
 * straight way, since the drawn numbers reach yields, those that stand against each other at the draw.
 */
function limitsOnTheWay({ expected }: RiskModel, program: Formulation['program'], solver: Solver): Limit[] {
  const change = changeBetween(expected.program, program, 1);
  if (change === undefined || change.matrix.size > 0) return limitsInConflict(program, solver);
  const edge = edgeOf({ program: expected.program, change }, 1, 'maximize', (apart) => {
    const answer = solver.solve(apart);
    return answer.kind === 'solved' ? answer : undefined;
  });
  return edge?.limits ?? limitsInConflict(program, solver);
}

/** The plan made in advance, valued at the draw's figures, where it still meets every limit. */
function keptAt({ advance }: RiskModel, { program }: Formulation): { kept?: number } {
  if (program.cost.length !== advance.length) return {};
  if (primalViolation(program, advance).amount > CERTIFICATE_TOLERANCE) return {};
  return { kept: objectiveAt(program, advance) };
}

function isKnownValid({ valid }: RiskModel, factors: readonly (readonly number[])[]): boolean {
  return factors.every((own, k) => own.every((factor) => factor >= valid[k][0] && factor <= valid[k][1]));
}

/** Mass sold, delivered and disposed of, by material. */
function leaving({ plant, program }: Formulation, primal: Float64Array): number[] {
  const outlets = new Map(plant.outlets.map(({ id, material }) => [id, material]));
  const left = new Map(plant.materials.map(({ id }) => [id, 0]));
  program.columnKeys.forEach((key, j) => {
    const material =
      key.kind === 'sell'
        ? outlets.get(key.outlet)
        : key.kind === 'deliver' || key.kind === 'dispose'
          ? key.material
          : undefined;
    if (material !== undefined) left.set(material, (left.get(material) ?? 0) + primal[j]);
  });
  return [...left.values()];
}
