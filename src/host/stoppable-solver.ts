import { createSolver, type EngineChoice, loadSolver, type Solver } from '../solver/choose.js';
import { engineApart } from './engine-apart.js';
import { PACKAGE_ROOT } from './package-root.js';

const solvers = new Map<EngineChoice, Promise<Solver>>();

/**
 * A solver that stops at once when it is asked to, also where whole numbers are searched: what the engine has found
 * by then may be lost. Loaded once a thread.
 */
export function stoppableSolver(choice: EngineChoice): Promise<Solver> {
  const known = solvers.get(choice) ?? load(choice);
  solvers.set(choice, known);
  return known;
}

async function load(choice: EngineChoice): Promise<Solver> {
  const { engines } = await loadSolver(choice);
  const worker = new URL('dist/host/solve-worker.js', PACKAGE_ROOT);
  return createSolver(
    engines.map((engine) => (engine.name === 'highs' ? engineApart(engine, worker) : engine)),
    choice,
  );
}
