import { parentPort, workerData } from 'node:worker_threads';
import { planMonths } from '../analysis/monthly-plan.js';
import { readPlant } from '../plant/read-plant.js';
import { planDocument } from '../report/plan-document.js';
import { loadSolver } from '../solver/choose.js';
import type { WorkerMessage, WorkerOrder } from './plan-in-worker.js';
import type { PlanOutcome, PlanRequest } from './plan-request.js';
import { whyOfPlan } from './why-of-plan.js';

/** The program of the worker thread: one order, some progress, one outcome. */
const { request, stopped } = workerData as WorkerOrder;
post({ kind: 'outcome', outcome: await outcomeOf(request) });

async function outcomeOf({ text, engine, gap, seconds, scenarioDigest }: PlanRequest): Promise<PlanOutcome> {
  const reading = readPlant(text);
  if (!reading.ok) return { kind: 'problems', problems: reading.problems };
  const { plant, warnings } = reading;
  const solver = await loadSolver(engine);
  const answer = planMonths(plant, solver, {
    ...(gap === undefined ? {} : { gap }),
    ...(seconds === undefined ? {} : { seconds }),
    cancelled: () => Atomics.load(stopped, 0) === 1,
    onProgress: (progress) => post({ kind: 'progress', progress }),
  });
  // A plan that was stopped is shown at once: the user waits no longer.
  const why = answer.status === 'stopped' ? [] : whyOfPlan(plant, answer, solver);
  return { kind: 'document', document: planDocument(plant, answer, { warnings, scenarioDigest, why }) };
}

function post(message: WorkerMessage): void {
  parentPort?.postMessage(message);
}
