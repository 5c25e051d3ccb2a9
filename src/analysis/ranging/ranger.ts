import { type AffineChange, changed, slopeAlong } from '../../program/affine-change.js';
import { type OptimalBasis, openBasis } from '../../program/basis/optimal-basis.js';
import { moneyScale } from '../../program/certificate.js';
import type { Support } from '../../program/first-stretch.js';
import { type LinearProgram, objectiveAt } from '../../program/linear-program.js';
import type { SolverAnswer } from '../../solver/answer.js';
import type { Solver } from '../../solver/choose.js';
import type { Basis, SolveLimits } from '../../solver/port.js';
import { openWarm, type WarmSolver } from '../../solver/warm-solver.js';

/**
 * One solved program held open to be asked what happens as its figures move. Answers come from the factored
 * basis where it tells them exactly, else from certified solves, which are counted. Close it.
 */
export interface Ranger {
  readonly program: LinearProgram;
  readonly solver: Solver;
  readonly warm: WarmSolver;
  readonly basis?: OptimalBasis;
  readonly start?: Basis;
  readonly primal: Float64Array;
  readonly rowDual: Float64Array;
  readonly value: number;
  /** Difference in value that counts as none. */
  readonly tolerance: number;
  readonly limits: SolveLimits;
  /** Solves of programs of another shape. */
  readonly apart: { count: number };
  close(): void;
}

/** The point and the prices of one solve of a variant. */
export interface Point {
  readonly primal: Float64Array;
  readonly rowDual: Float64Array;
  readonly value: number;
}

/** A variant had no certified optimum: what came instead. */
export class VariantUnanswered extends Error {
  override readonly name = 'VariantUnanswered';
  constructor(readonly outcome: 'infeasible' | 'unbounded' | 'stopped' | 'uncertified') {
    super(`a variant of the program is ${outcome}`);
  }
}

export interface RangerOptions {
  /** S; by default the program's own at its optimum. */
  readonly scale?: number;
  readonly limits?: SolveLimits;
}

/** Share of the scale S below which two values are one. */
const VALUE_TOLERANCE = 1e-10;

/**
 * Solves a linear program and holds it open.
 *
 * @returns undefined where it has no certified optimum.
 */
export function openRanger(
  program: LinearProgram,
  solver: Solver,
  { scale, limits = {} }: RangerOptions = {},
): Ranger | undefined {
  const warm = openWarm(solver, undefined, { believesInfeasible: true });
  const answer = warm.solve(program, limits);
  if (answer.kind !== 'solved') {
    warm.close();
    return undefined;
  }
  const { primal } = answer.answer;
  const start = warm.basis();
  const basis = start === undefined ? undefined : openBasis(program, start);
  return {
    program,
    solver,
    warm,
    ...(basis === undefined ? {} : { basis }),
    ...(start === undefined ? {} : { start }),
    primal,
    rowDual: answer.rowDual,
    value: objectiveAt(program, primal),
    tolerance: VALUE_TOLERANCE * (scale ?? moneyScale(program, primal)),
    limits,
    apart: { count: 0 },
    close: () => warm.close(),
  };
}

/**
 * Solves a variant of the program, which has the same shape.
 *
 * @throws VariantUnanswered where it has no certified optimum.
 */
export function solveVariant(ranger: Ranger, variant: LinearProgram): Point {
  const answer = ranger.warm.solve(variant, ranger.limits);
  if (answer.kind !== 'solved') throw new VariantUnanswered(answer.kind);
  const { primal } = answer.answer;
  return { primal, rowDual: answer.rowDual, value: objectiveAt(variant, primal) };
}

/** Solves a program of another shape. */
export function solveApart<R, C>(ranger: Ranger, program: LinearProgram<R, C>): SolverAnswer<R, C> {
  ranger.apart.count += 1;
  return ranger.solver.solve(program, ranger.limits);
}

/** All solves so far. */
export function solvesOf(ranger: Ranger): number {
  return ranger.warm.solves + ranger.apart.count;
}

/** The value and its slope at θ on one side, the change taken in a direction. */
export function supportAt(
  ranger: Ranger,
  change: AffineChange,
  direction: 1 | -1,
  at: number,
): Support<Point> {
  const variant = changed(ranger.program, change, direction * at);
  const point = solveVariant(ranger, variant);
  return { at, value: point.value, slope: direction * slopeAlong(variant, change, point), from: point };
}

/** Puts the solver back to the basis of the program itself. */
export function returnToStart(ranger: Ranger): void {
  if (ranger.start !== undefined) ranger.warm.startFrom(ranger.start);
}

/** What a solve gives; undefined where the variant is infeasible or unbounded. */
export function tried<T>(solve: () => T): T | undefined {
  try {
    return solve();
  } catch (error) {
    if (!(error instanceof VariantUnanswered)) throw error;
    if (error.outcome === 'infeasible' || error.outcome === 'unbounded') return undefined;
    throw error;
  }
}
