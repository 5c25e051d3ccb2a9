import type { MessagePort } from 'node:worker_threads';
import type { EngineChoice } from '../solver/choose.js';
import { loadSolver, type Solver } from '../solver/choose.js';
import { type AnalysisOrder, answerOrder } from './analysis-order.js';

/** What the pool hands a worker thread. `stopped` holds one flag: 1 asks it to stop. */
export interface AnalysisTask {
  readonly order: AnalysisOrder;
  readonly engine: EngineChoice;
  readonly stopped: Int32Array<SharedArrayBuffer>;
  readonly port: MessagePort;
}

/** Milliseconds between reports: more often only slows the answer down. */
const BETWEEN_REPORTS = 50;

const solvers = new Map<EngineChoice, Promise<Solver>>();

/** The program of a worker thread of the pool: one task, some progress, one answer. */
export default async function answerTask({ order, engine, stopped, port }: AnalysisTask): Promise<unknown> {
  let reported = Number.NEGATIVE_INFINITY;
  try {
    return answerOrder(order, await solverOf(engine), {
      cancelled: () => Atomics.load(stopped, 0) === 1,
      onProgress: (progress) => {
        const now = performance.now();
        if (now - reported < BETWEEN_REPORTS && progress.done !== progress.of) return;
        reported = now;
        port.postMessage(progress);
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
