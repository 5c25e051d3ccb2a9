import { planMonths } from '../analysis/monthly-plan.js';
import { readPlant } from '../plant/read-plant.js';
import { planDocument } from '../report/plan-document.js';
import { HasWholeNumbers, withLinearSolver } from './linear-solver.js';
import { planInWorker } from './plan-in-worker.js';
import type { PlanHooks, PlanOutcome, PlanRequest } from './plan-request.js';
import { whyOfPlan } from './why-of-plan.js';

/**
 * Plans a scenario: at once in this process where the program is linear, else in a worker thread, so that
 * the caller stays free to show progress and to stop it.
 *
 * @param worker the program of plan-worker.js
 */
export async function answerPlan(
  request: PlanRequest,
  worker: URL,
  hooks: PlanHooks = {},
): Promise<PlanOutcome> {
  const reading = readPlant(request.text);
  if (!reading.ok) return { kind: 'problems', problems: reading.problems };
  const { plant, warnings } = reading;
  const { engine, gap, seconds, scenarioDigest } = request;
  try {
    const limits = { ...(gap === undefined ? {} : { gap }), ...(seconds === undefined ? {} : { seconds }) };
    const { answer, why } = await withLinearSolver(engine, (solver) => {
      const found = planMonths(plant, solver, limits);
      return { answer: found, why: whyOfPlan(plant, found, solver, limits) };
    });
    return { kind: 'document', document: planDocument(plant, answer, { warnings, scenarioDigest, why }) };
  } catch (error) {
    if (!(error instanceof HasWholeNumbers)) throw error;
  }
  return planInWorker(request, worker, plant.units.currency, hooks);
}
