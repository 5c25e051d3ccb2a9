import { createSolver, type EngineChoice, loadSolver, type Solver } from '../solver/choose.js';
import { type AnalysisOrder, type AnalysisProgress, answerOrder } from './analysis-order.js';
import { engineApart } from './engine-apart.js';
import { PACKAGE_ROOT } from './package-root.js';
import { type ThreadTask, workOn } from './thread-task.js';

export interface AnalysisWork {
  readonly order: AnalysisOrder;
  readonly engine: EngineChoice;
}

/** Milliseconds between reports: more often only slows the answer down. */
const BETWEEN_REPORTS = 50;

const solvers = new Map<EngineChoice, Promise<Solver>>();

/** What the threads of an analysis pool run. A task is begun once its engine is there, and can be stopped from then on. */
export async function answer(task: ThreadTask<AnalysisWork>): Promise<unknown> {
  const solver = await solverOf(task.work.engine);
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

function solverOf(engine: EngineChoice): Promise<Solver> {
  const known = solvers.get(engine) ?? stoppableSolver(engine);
  solvers.set(engine, known);
  return known;
}

/** A solver that stops at once when it is asked to, also where whole numbers are searched. */
async function stoppableSolver(choice: EngineChoice): Promise<Solver> {
  const { engines } = await loadSolver(choice);
  const worker = new URL('dist/host/solve-worker.js', PACKAGE_ROOT);
  return createSolver(
    engines.map((engine) => (engine.name === 'highs' ? engineApart(engine, worker) : engine)),
    choice,
  );
}
