import type { Formulation } from '../../planning/formulate.js';
import { hasIntegers } from '../../program/linear-program.js';
import type { SolveLimits } from '../../solver/port.js';
import { planMonths } from '../monthly-plan.js';
import { Unfinished } from '../unfinished.js';
import { isFreeOfDeclaredTonnes } from './declared-tonnes.js';
import { type PointPlan, type PointSolver, planOf } from './solve-point.js';

/** The best plan's value at one value of the parameter. */
export interface BestPlan {
  readonly at: number;
  readonly value: number;
  readonly scale: number;
  /** Currency: how far below the best it may lie; with whole numbers only. */
  readonly gap?: number;
  readonly plan: PointPlan;
}

/**
 * The best plan of any formulation: a linear program from the last basis, whole numbers as a plan is made.
 * Undefined where there is none.
 *
 * @throws Unfinished
 */
export function bestPlan(
  formulation: Formulation,
  at: number,
  points: PointSolver,
  limits: SolveLimits,
): BestPlan | undefined {
  if (!hasIntegers(formulation.program)) {
    const point = points.solve(formulation.program, at);
    if (point === undefined) return undefined;
    if (isFreeOfDeclaredTonnes(formulation, point, point)) {
      const { value, scale } = point;
      return { at, value, scale, plan: points.plan(formulation, point) };
    }
  }
  return wholePlan(formulation, at, points, limits);
}

function wholePlan(
  { plant }: Formulation,
  at: number,
  points: PointSolver,
  limits: SolveLimits,
): BestPlan | undefined {
  const answer = planMonths(plant, points.solver, limits);
  if (answer.status === 'infeasible') return undefined;
  if (answer.status !== 'optimal') {
    throw new Unfinished(limits.cancelled?.() === true ? 'cancelled' : 'no certified answer');
  }
  points.solves += answer.solves;
  const { program } = answer.solved.formulation;
  const { presentValue: value, scale } = answer.plan.statement;
  const { whole } = answer;
  return {
    at,
    value,
    scale,
    ...(whole === undefined ? {} : { gap: scale * (whole.claimed ?? whole.proved) }),
    plan: planOf(plant, program, answer.solved.primal),
  };
}
