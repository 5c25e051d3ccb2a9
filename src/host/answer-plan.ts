import { planMonths } from '../analysis/monthly-plan.js';
import { readPlant } from '../plant/read-plant.js';
import { planDocument } from '../report/plan-document.js';
import type { Solver } from '../solver/choose.js';
import { answerInWorker } from './answer-in-worker.js';
import { HasWholeNumbers, loadLinearSolver } from './linear-solver.js';
import type { PlanHooks, PlanOutcome, PlanRequest } from './plan-request.js';
import { whyOfPlan } from './why-of-plan.js';

/**
 * Plans a scenario: at once in this process where the program is linear, else in a worker thread, so that
 * the caller stays free to show progress and to stop it.
 *
 * @param worker the program of plan-worker.js
 * @param loading the request's engine, where the caller has begun to load it
 */
export async function answerPlan(
  request: PlanRequest,
  worker: URL,
  hooks: PlanHooks = {},
  loading: Promise<Solver> = loadLinearSolver(request.engine),
): Promise<PlanOutcome> {
  const reading = readPlant(request.text);
  if (!reading.ok) return { kind: 'problems', problems: reading.problems };
  const { plant, warnings } = reading;
  hooks.onRead?.(plant.months.map(({ label }) => label));
  const { gap, seconds, scenarioDigest } = request;
  try {
    const limits = { ...(gap === undefined ? {} : { gap }), ...(seconds === undefined ? {} : { seconds }) };
    const solver = await loading;
    const answer = planMonths(plant, solver, limits);
    const why = whyOfPlan(plant, answer, solver, limits);
    return { kind: 'document', document: planDocument(plant, answer, { warnings, scenarioDigest, why }) };
  } catch (error) {
    if (!(error instanceof HasWholeNumbers)) throw error;
  }
  const { currency } = plant.units;
  return answerInWorker({ name: 'plan', request, currency }, worker, hooks);
}
