import { planMonths } from '../analysis/monthly-plan.js';
import { readPlant } from '../plant/read-plant.js';
import { planDocument } from '../report/plan-document.js';
import { loadSolver } from '../solver/choose.js';
import type { SolveProgress } from '../solver/port.js';
import {
  type ExplanationOutcome,
  type ExplanationRequest,
  explanationOutcome,
} from './answer-explanation.js';
import type { PlanOutcome, PlanRequest } from './plan-request.js';
import { type ThreadTask, type ThreadWatch, workOn } from './thread-task.js';
import { whyOfPlan } from './why-of-plan.js';

/** What the threads of answerInWorker run: functions called by name. */
export function plan(task: ThreadTask<PlanRequest>): Promise<PlanOutcome> {
  return workOn(task, outcomeOf);
}

export function explain(task: ThreadTask<ExplanationRequest>): Promise<ExplanationOutcome> {
  return workOn<ExplanationRequest, SolveProgress, ExplanationOutcome>(task, async (request, watch) =>
    explanationOutcome(readPlant(request.text), request, await loadSolver(request.engine), watch),
  );
}

async function outcomeOf(
  { text, engine, gap, seconds, scenarioDigest }: PlanRequest,
  { cancelled, onProgress }: ThreadWatch<SolveProgress>,
): Promise<PlanOutcome> {
  const reading = readPlant(text);
  if (!reading.ok) return { kind: 'problems', problems: reading.problems };
  const { plant, warnings } = reading;
  const solver = await loadSolver(engine);
  const answer = planMonths(plant, solver, {
    ...(gap === undefined ? {} : { gap }),
    ...(seconds === undefined ? {} : { seconds }),
    cancelled,
    onProgress,
  });
  // A plan that was stopped is shown at once: the user waits no longer.
  const why = answer.status === 'stopped' ? [] : whyOfPlan(plant, answer, solver, { cancelled });
  return { kind: 'document', document: planDocument(plant, answer, { warnings, scenarioDigest, why }) };
}
