import { type EngineChoice, loadSolver, type Solver } from '../../src/solver/choose.js';

const loaded = new Map<EngineChoice, Promise<Solver>>();

/** One solver a choice and test file: loading an engine takes longer than most solves. */
export function solverFor(choice: EngineChoice): Promise<Solver> {
  const solver = loaded.get(choice) ?? loadSolver(choice);
  loaded.set(choice, solver);
  return solver;
}
