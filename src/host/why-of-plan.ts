import { explainConflict } from '../analysis/conflict/explain-conflict.js';
import { explainBriefly } from '../analysis/explain/brief-explanation.js';
import type { PlanAnswer } from '../analysis/plan-answer.js';
import type { Plant } from '../plant/plant.js';
import { conflictSentences } from '../report/explain/conflict-sentences.js';
import { explanationSentences } from '../report/explain/sentences.js';
import type { Solver } from '../solver/choose.js';
import type { SolveLimits } from '../solver/port.js';

/** The short form of an explanation: a few sentences on why the plan is as it is, or why there is none. */
export function whyOfPlan(
  plant: Plant,
  answer: PlanAnswer,
  solver: Solver,
  limits: Pick<SolveLimits, 'seconds' | 'cancelled'> = {},
): readonly string[] {
  if (answer.status === 'infeasible') return conflictSentences(plant, explainConflict(plant, solver, limits));
  if (answer.status === 'no certified answer') return [];
  const explanation = explainBriefly(answer, solver, limits);
  return explanation === undefined ? [] : explanationSentences(plant, explanation);
}
