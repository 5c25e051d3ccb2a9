import { hasIntegers, type LinearProgram } from '../program/linear-program.js';
import { type EngineChoice, loadSolver, type Solver } from '../solver/choose.js';

/** Thrown by a linear solver that is given whole numbers: the question belongs into a worker. */
export class HasWholeNumbers extends Error {
  override readonly name = 'HasWholeNumbers';
}

/** A solver of linear programs in this process: given whole numbers it throws HasWholeNumbers. */
export async function loadLinearSolver(choice: EngineChoice): Promise<Solver> {
  const solver = await loadSolver(choice);
  return {
    ...solver,
    solve: (program, limits, options) => {
      refuseWholeNumbers(program);
      return solver.solve(program, limits, options);
    },
  };
}

function refuseWholeNumbers(program: LinearProgram): void {
  if (hasIntegers(program)) throw new HasWholeNumbers('whole numbers in a linear question');
}
