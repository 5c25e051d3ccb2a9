import { explainConflict } from '../analysis/conflict/explain-conflict.js';
import { explainPlan } from '../analysis/explain/explain-plan.js';
import { freeFormulation } from '../analysis/explain/free-formulation.js';
import { planMonths } from '../analysis/monthly-plan.js';
import type { Problem } from '../issue/problem.js';
import { type PlantReading, readPlant } from '../plant/read-plant.js';
import {
  conflictDocument,
  type ExplanationDocument,
  explainedDocument,
  unexplainedDocument,
} from '../report/explain/explain-document.js';
import { loadSolver, type Solver } from '../solver/choose.js';
import type { SolveLimits } from '../solver/port.js';
import type { PlanRequest } from './plan-request.js';

export type ExplanationOutcome =
  | { readonly kind: 'problems'; readonly problems: readonly Problem[] }
  | { readonly kind: 'document'; readonly document: ExplanationDocument };

export interface ExplanationRequest extends PlanRequest {
  /** With whole shifts: windows for which a shift more and less is solved. */
  readonly staffedWindows: number;
}

export interface ExplanationOptions {
  readonly limits: SolveLimits;
  readonly staffedWindows: number;
  readonly scenarioDigest?: string;
}

/** Plans a scenario and explains the plan, or why there is none. */
export async function answerExplanation(request: ExplanationRequest): Promise<ExplanationOutcome> {
  const reading = readPlant(request.text);
  if (!reading.ok) return { kind: 'problems', problems: reading.problems };
  const solver = await loadSolver(request.engine);
  const document = explanationOf(reading, solver, { ...request, limits: limitsOf(request) });
  return { kind: 'document', document };
}

/** The same for a scenario that was read, with a solver that is there. */
export function explanationOf(
  { plant, warnings }: Extract<PlantReading, { readonly ok: true }>,
  solver: Solver,
  { limits, staffedWindows, scenarioDigest }: ExplanationOptions,
): ExplanationDocument {
  const context = { warnings, ...(scenarioDigest === undefined ? {} : { scenarioDigest }) };
  const answer = planMonths(plant, solver, limits);
  if (answer.status === 'infeasible') {
    return conflictDocument(plant, explainConflict(plant, solver, limits), context);
  }
  if (answer.status === 'no certified answer') return unexplainedDocument(plant, answer.attempts, context);
  const whole = answer.whole === undefined ? {} : { free: freeFormulation(answer.solved), staffedWindows };
  const explanation = explainPlan(answer, solver, { limits, ...whole });
  return explanation === undefined
    ? unexplainedDocument(plant, [], context)
    : explainedDocument(plant, answer, explanation, context);
}

function limitsOf({ gap, seconds }: ExplanationRequest): SolveLimits {
  return { ...(gap === undefined ? {} : { gap }), ...(seconds === undefined ? {} : { seconds }) };
}
