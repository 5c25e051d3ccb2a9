import type { LinearProgram } from '../program/linear-program.js';

/**
 * The port to a linear-programming engine. An adapter is one file beside this one; nothing outside the
 * adapters and the composition roots names an engine.
 */
export interface Engine {
  readonly name: EngineName;
  readonly version: string;
  /** Opens a program that can be changed and solved again. Close it: engines hold memory of their own. */
  open(program: LinearProgram): Session;
}

export type EngineName = 'javascript-lp-solver' | 'highs';

/**
 * One program held open. Changes apply to the next solve; an engine that can, starts it from the last basis.
 *
 * @throws EngineFailure from `solve` when the engine broke or said something that the adapter does not know.
 */
export interface Session {
  setCost(column: number, cost: number): void;
  setColumnBounds(column: number, lower: number, upper: number): void;
  setRowBounds(row: number, lower: number, upper: number): void;
  setCoefficient(row: number, column: number, value: number): void;
  solve(limits?: SolveLimits): EngineAnswer;
  /** The basis of the last solve, to be given back to `startFrom`; undefined where the engine keeps none. */
  basis(): Basis | undefined;
  startFrom(basis: Basis): void;
  close(): void;
}

/** Status of each column and row in a basis, in the program's order. */
export interface Basis {
  readonly columns: readonly BasisStatus[];
  readonly rows: readonly BasisStatus[];
}

export type BasisStatus = 'basic' | 'at lower' | 'at upper' | 'free at zero';

export interface SolveLimits {
  /** Seconds of wall clock. */
  readonly seconds?: number;
  /** Relative gap at which a whole-number solve may stop. */
  readonly gap?: number;
  /** The same in the program's objective, for gaps that are relative to another scale than the objective. */
  readonly absoluteGap?: number;
  /** A point that a whole-number solve may start from, where the engine can and finds it feasible. */
  readonly start?: Float64Array;
  /** Polled during the solve; true stops it. Must be cheap. */
  readonly cancelled?: () => boolean;
  readonly onProgress?: (progress: SolveProgress) => void;
}

/** How far a whole-number solve has come. `bound` and `best` in the program's objective, `best` absent before a first plan. */
export interface SolveProgress {
  readonly seconds: number;
  readonly bound: number;
  readonly best?: number;
  readonly gap?: number;
}

/** Three separate questions: why did it stop, is there a primal point, is there a dual one. */
export interface EngineAnswer {
  readonly reason: StopReason;
  /** Column values in the program's order. */
  readonly primal?: Float64Array;
  /**
   * For a linear program that was solved to its end. Signs: rowDual = d objective / d right side in the
   * program's own sense; reducedCost = cost − Aᵀ rowDual.
   */
  readonly dual?: DualPoint;
  /** The engine's word on the best objective that any point could have; whole-number solves only. */
  readonly bound?: number;
}

export type StopReason = 'optimal' | 'infeasible' | 'unbounded' | 'time limit' | 'cancelled';

export interface DualPoint {
  readonly rowDual: Float64Array;
  readonly reducedCost: Float64Array;
}

/** The engine broke, stalled, or gave a status that its adapter does not know: no answer at all. */
export class EngineFailure extends Error {
  override readonly name = 'EngineFailure';
  constructor(
    readonly engine: EngineName,
    readonly detail: string,
  ) {
    super(`${engine}: ${detail}`);
  }
}

/** Opens, solves once and closes. */
export function solveOnce(engine: Engine, program: LinearProgram, limits?: SolveLimits): EngineAnswer {
  const session = engine.open(program);
  try {
    return session.solve(limits);
  } finally {
    session.close();
  }
}
