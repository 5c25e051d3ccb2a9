import { explainConflict } from '../analysis/conflict/explain-conflict.js';
import { explainPlan } from '../analysis/explain/explain-plan.js';
import type { PlanAnswer } from '../analysis/plan-answer.js';
import type { Plant } from '../plant/plant.js';
import { conflictSentences } from '../report/explain/conflict-sentences.js';
import { explanationSentences } from '../report/explain/sentences.js';
import type { Solver } from '../solver/choose.js';
import type { SolveLimits } from '../solver/port.js';

/** Solves that the short form may take; a question that would take more is left out of it. */
const MOST_SOLVES = 150;

/** The short form of an explanation: a few sentences on why the plan is as it is, or why there is none. */
export function whyOfPlan(
  plant: Plant,
  answer: PlanAnswer,
  solver: Solver,
  limits: Pick<SolveLimits, 'seconds' | 'cancelled'> = {},
): readonly string[] {
  if (answer.status === 'infeasible') return conflictSentences(plant, explainConflict(plant, solver, limits));
  if (answer.status === 'no certified answer') return [];
  const explanation = explainPlan(answer, solver, { limits, mostSolves: MOST_SOLVES });
  return explanation === undefined ? [] : explanationSentences(plant, explanation);
}
