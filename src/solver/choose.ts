import type { CertificateOptions } from '../program/certificate.js';
import { columnCount, hasIntegers, type LinearProgram } from '../program/linear-program.js';
import type { Attempt, SolverAnswer } from './answer.js';
import { certifiedSolve, type Trial, withLess } from './certified-solve.js';
import { loadHighs } from './highs.js';
import { loadJavascriptLpSolver } from './javascript-lp-solver.js';
import type { Engine, EngineName, SolveLimits } from './port.js';

/** 'auto' asks the engine that suits the program and has a second one behind it; a name asks that one only. */
export type EngineChoice = 'auto' | EngineName;

export interface Solver {
  readonly engines: readonly Engine[];
  /** Every plan in the answer is certified; see SolverAnswer. */
  solve<R, C>(
    program: LinearProgram<R, C>,
    limits?: SolveLimits,
    options?: CertificateOptions,
  ): SolverAnswer<R, C>;
  /** The engines that `solve` would ask for a program, in order. */
  enginesFor(program: LinearProgram): readonly Engine[];
}

/** Largest number of columns for which 'auto' asks the small engine first. */
export const SMALL_PROGRAM_COLUMNS = 100;

/** Loads the engines that a choice can need and makes the solver. */
export async function loadSolver(choice: EngineChoice = 'auto'): Promise<Solver> {
  const wanted = (name: EngineName) => choice === 'auto' || choice === name;
  const engines = await Promise.all([
    ...(wanted('javascript-lp-solver') ? [loadJavascriptLpSolver()] : []),
    ...(wanted('highs') ? [loadHighs()] : []),
  ]);
  return createSolver(engines, choice);
}

/**
 * Asks the engines in turn. The next one is asked when one breaks, stalls, does not certify, or says
 * 'infeasible' or 'unbounded', which only the last one is believed in.
 *
 * @throws RangeError when the chosen engine is not among the engines.
 */
export function createSolver(engines: readonly Engine[], choice: EngineChoice = 'auto'): Solver {
  const enginesFor = (program: LinearProgram) => order(engines, choice, program);
  return {
    engines,
    enginesFor,
    solve: (program, limits = {}, options = {}) => inTurn(enginesFor(program), program, limits, options),
  };
}

function order(engines: readonly Engine[], choice: EngineChoice, program: LinearProgram): readonly Engine[] {
  const named = (name: EngineName) => engines.filter((engine) => engine.name === name);
  const chosen = choice === 'auto' ? automatic(program).flatMap(named) : named(choice);
  if (chosen.length === 0) throw new RangeError(`no engine for the choice ${choice}`);
  return chosen;
}

function automatic(program: LinearProgram): readonly EngineName[] {
  const small = columnCount(program) <= SMALL_PROGRAM_COLUMNS && !hasIntegers(program);
  return small ? ['javascript-lp-solver', 'highs'] : ['highs'];
}

function inTurn<R, C>(
  engines: readonly Engine[],
  program: LinearProgram<R, C>,
  limits: SolveLimits,
  options: CertificateOptions,
): SolverAnswer<R, C> {
  const attempts: Attempt<R, C>[] = [];
  const started = performance.now();
  for (const [i, engine] of engines.entries()) {
    const last = i === engines.length - 1;
    const left = withLess(limits, (performance.now() - started) / 1000);
    // An engine with another behind it must leave that one time.
    const mine = last || left.seconds === undefined ? left : { ...left, seconds: left.seconds / 2 };
    const trial = certifiedSolve(engine, program, mine, options);
    attempts.push(trial.attempt);
    if (last || isFinal(trial.attempt)) return conclusion(trial, attempts);
  }
  return { kind: 'uncertified', attempts };
}

/** Whether an attempt ends the matter although another engine could be asked. */
function isFinal(attempt: Attempt): boolean {
  return attempt.outcome === 'certified' || attempt.outcome === 'cancelled';
}

function conclusion<R, C>(trial: Trial<R, C>, attempts: readonly Attempt<R, C>[]): SolverAnswer<R, C> {
  const { attempt, certified } = trial;
  switch (attempt.outcome) {
    case 'certified':
      return certified === undefined
        ? { kind: 'uncertified', attempts }
        : { kind: 'solved', ...certified, attempts };
    case 'infeasible':
    case 'unbounded':
      return { kind: attempt.outcome, engine: attempt.engine, attempts };
    case 'time limit':
    case 'cancelled':
      return {
        kind: 'stopped',
        reason: attempt.outcome,
        ...(certified === undefined ? {} : { best: certified }),
        attempts,
      };
    default:
      return { kind: 'uncertified', attempts };
  }
}
