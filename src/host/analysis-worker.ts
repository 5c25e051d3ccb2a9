import type { MessagePort } from 'node:worker_threads';
import type { EngineChoice } from '../solver/choose.js';
import { loadSolver, type Solver } from '../solver/choose.js';
import { type AnalysisOrder, type AnalysisProgress, answerOrder } from './analysis-order.js';

/** What the pool hands a worker thread. `stopped` holds one flag: 1 asks it to stop. */
export interface AnalysisTask {
  readonly order: AnalysisOrder;
  readonly engine: EngineChoice;
  readonly stopped: Int32Array<SharedArrayBuffer>;
  readonly port: MessagePort;
}

/** That the order is begun, then how far it has come. */
export type AnalysisMessage = 'begun' | AnalysisProgress;

/** Milliseconds between reports: more often only slows the answer down. */
const BETWEEN_REPORTS = 50;

const solvers = new Map<EngineChoice, Promise<Solver>>();

/** The program of a worker thread of the pool: one task, some progress, one answer. */
export default async function answerTask({ order, engine, stopped, port }: AnalysisTask): Promise<unknown> {
  const post = (message: AnalysisMessage) => port.postMessage(message);
  let reported = Number.NEGATIVE_INFINITY;
  try {
    const solver = await solverOf(engine);
    post('begun');
    return answerOrder(order, solver, {
      cancelled: () => Atomics.load(stopped, 0) === 1,
      onProgress: (progress) => {
        const now = performance.now();
        if (now - reported < BETWEEN_REPORTS && progress.done !== progress.of) return;
        reported = now;
        post(progress);
      },
    });
  } finally {
    port.close();
  }
}

function solverOf(engine: EngineChoice): Promise<Solver> {
  const known = solvers.get(engine) ?? loadSolver(engine);
  solvers.set(engine, known);
  return known;
}
