import type { EngineChoice } from '../solver/choose.js';
import { type AnalysisOrder, type AnalysisProgress, answerOrder } from './analysis-order.js';
import { stoppableSolver } from './stoppable-solver.js';
import { type ThreadTask, workOn } from './thread-task.js';

export interface AnalysisWork {
  readonly order: AnalysisOrder;
  readonly engine: EngineChoice;
}

/** Milliseconds between reports: more often only slows the answer down. */
const BETWEEN_REPORTS = 50;

/** What the threads of an analysis pool run. A task is begun once its engine is there, and can be stopped from then on. */
export async function answer(task: ThreadTask<AnalysisWork>): Promise<unknown> {
  const solver = await stoppableSolver(task.work.engine);
  let reported = Number.NEGATIVE_INFINITY;
  return workOn<AnalysisWork, AnalysisProgress, unknown>(task, ({ order }, { cancelled, onProgress }) =>
    answerOrder(order, solver, {
      cancelled,
      onProgress: (progress) => {
        const now = performance.now();
        if (now - reported < BETWEEN_REPORTS && progress.done !== progress.of) return;
        reported = now;
        onProgress(progress);
      },
    }),
  );
}
