import { hasIntegers, type LinearProgram } from '../program/linear-program.js';
import { createSolver, type EngineChoice, type Solver } from '../solver/choose.js';
import { loadHighs } from '../solver/highs.js';
import { loadJavascriptLpSolver } from '../solver/javascript-lp-solver.js';
import type { Engine } from '../solver/port.js';

/** Thrown by a linear solver that is given whole numbers: the question belongs into a worker. */
export class HasWholeNumbers extends Error {
  override readonly name = 'HasWholeNumbers';
}

/**
 * Answers a question with a solver of linear programs in this process. The engine that is slow to load is
 * loaded when it is asked for, and the question then put again: a month's plan seldom needs it.
 *
 * @throws HasWholeNumbers when the question asks for whole numbers.
 */
export async function withLinearSolver<T>(choice: EngineChoice, question: (solver: Solver) => T): Promise<T> {
  const engines = choice === 'highs' ? [] : [await loadJavascriptLpSolver()];
  try {
    return question(linearOnly(createSolver([...engines, UNLOADED_HIGHS], choice)));
  } catch (error) {
    if (!(error instanceof NotLoaded)) throw error;
  }
  return question(linearOnly(createSolver([...engines, await loadHighs()], choice)));
}

class NotLoaded extends Error {}

const UNLOADED_HIGHS: Engine = {
  name: 'highs',
  version: '',
  open() {
    throw new NotLoaded();
  },
};

function linearOnly(solver: Solver): Solver {
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
