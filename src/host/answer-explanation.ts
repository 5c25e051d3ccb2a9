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
import type { Solver } from '../solver/choose.js';
import type { SolveLimits } from '../solver/port.js';
import { answerInWorker } from './answer-in-worker.js';
import { HasWholeNumbers, loadLinearSolver } from './linear-solver.js';
import type { PlanHooks, PlanRequest } from './plan-request.js';

export type ExplanationOutcome =
  | { readonly kind: 'problems'; readonly problems: readonly Problem[] }
  | { readonly kind: 'document'; readonly document: ExplanationDocument };

export interface ExplanationRequest extends PlanRequest {
  /** With whole shifts: windows for which a shift more and less is solved. */
  readonly staffedWindows: number;
}

export interface ExplanationOptions {
  readonly limits: SolveLimits;
  /** Those of the solves after the plan's own, where they are others. */
  readonly explaining?: SolveLimits;
  readonly staffedWindows: number;
  readonly scenarioDigest?: string;
}

/**
 * Plans a scenario and explains the plan, or why there is none: at once in this process where the program is linear,
 * else in a worker thread.
 *
 * @param worker the program of plan-worker.js
 */
export async function answerExplanation(
  request: ExplanationRequest,
  worker: URL,
  hooks: PlanHooks = {},
): Promise<ExplanationOutcome> {
  const reading = readPlant(request.text);
  if (!reading.ok) return { kind: 'problems', problems: reading.problems };
  try {
    return explanationOutcome(reading, request, await loadLinearSolver(request.engine));
  } catch (error) {
    if (!(error instanceof HasWholeNumbers)) throw error;
  }
  const { currency } = reading.plant.units;
  return answerInWorker({ name: 'explain', request, currency }, worker, hooks);
}

/**
 * The same in this thread. Who stops the plan's own solve has its best plan explained.
 *
 * @throws what the solver throws.
 */
export function explanationOutcome(
  reading: PlantReading,
  request: ExplanationRequest,
  solver: Solver,
  watch: Pick<SolveLimits, 'cancelled' | 'onProgress'> = {},
): ExplanationOutcome {
  if (!reading.ok) return { kind: 'problems', problems: reading.problems };
  const explaining = limitsOf(request);
  const options = { ...request, limits: { ...explaining, ...watch }, explaining };
  return { kind: 'document', document: explanationOf(reading, solver, options) };
}

/** The same for a scenario that was read, with a solver that is there. */
export function explanationOf(
  { plant, warnings }: Extract<PlantReading, { readonly ok: true }>,
  solver: Solver,
  { limits, explaining = limits, staffedWindows, scenarioDigest }: ExplanationOptions,
): ExplanationDocument {
  const context = { warnings, ...(scenarioDigest === undefined ? {} : { scenarioDigest }) };
  const answer = planMonths(plant, solver, limits);
  if (answer.status === 'infeasible') {
    return conflictDocument(plant, explainConflict(plant, solver, explaining), context);
  }
  if (answer.status === 'no certified answer') return unexplainedDocument(plant, answer.attempts, context);
  const whole = answer.whole === undefined ? {} : { free: freeFormulation(answer.solved), staffedWindows };
  const explanation = explainPlan(answer, solver, { limits: explaining, ...whole });
  return explanation === undefined
    ? unexplainedDocument(plant, [], context)
    : explainedDocument(plant, answer, explanation, context);
}

function limitsOf({ gap, seconds }: ExplanationRequest): SolveLimits {
  return { ...(gap === undefined ? {} : { gap }), ...(seconds === undefined ? {} : { seconds }) };
}
