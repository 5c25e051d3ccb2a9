import { hasIntegers, type LinearProgram, objectiveAt } from '../../program/linear-program.js';
import { dualPoint } from '../dual-point.js';
import { type EngineAnswer, EngineFailure, type SolveLimits } from '../port.js';
import { equilibrate, type Scaling, scaled, unscaledPrimal, unscaledRowDual } from '../scaling.js';
import { answerWithoutEngine } from '../without-engine.js';
import { type Guarded, PivotGuard, type StopCause, Stopped } from './guard.js';
import type { LpPackage } from './package.js';
import { type Translation, translate } from './translate.js';

/** Cells of the dense table beyond which the engine is not asked (400 MB). */
const LARGEST_TABLE = 5e7;

/** @throws EngineFailure when the engine stalls, or its point is not made of numbers. */
export function solveProgram(
  lpPackage: LpPackage,
  program: LinearProgram,
  limits: SolveLimits,
): EngineAnswer {
  const early = answerWithoutEngine(program);
  if (early !== undefined) return early;
  const scaling = equilibrate(program);
  const inner = scaled(program, scaling);
  const translation = translate(lpPackage, inner);
  if (translation === 'infeasible') return { reason: 'infeasible' };
  requireSize(translation);
  const guard = new PivotGuard(guardedProgram(translation, inner, scaling), limits);
  guard.install();
  const stop = run(translation);
  if (stop === 'relaxation unbounded') return withoutCosts(lpPackage, program, limits);
  if (stop === 'too many pivots' || stop === 'too many nodes') throw failure(stop);
  return hasIntegers(program)
    ? wholeNumberAnswer(guard, scaling, stop)
    : linearAnswer(translation, program, scaling, stop);
}

/** Runs to the end, or until the guard stops it and says why. */
function run(translation: Translation): StopCause | undefined {
  try {
    translation.model.solve();
  } catch (error) {
    if (error instanceof Stopped) return error.why;
    throw error;
  }
  if (translation.model.messages.length > 0) throw failure(translation.model.messages.join(' '));
  return undefined;
}

function linearAnswer(
  translation: Translation,
  program: LinearProgram,
  scaling: Scaling,
  stop: StopCause | undefined,
): EngineAnswer {
  const { tableau } = translation.model;
  if (stop === 'time limit' || stop === 'cancelled') return { reason: stop };
  if (!tableau.feasible) return { reason: 'infeasible' };
  if (!tableau.bounded) return { reason: 'unbounded' };
  const primal = requireNumbers(unscaledPrimal(translation.readPrimal(), scaling));
  const rowDual = requireNumbers(unscaledRowDual(translation.readRowDual(), scaling));
  return { reason: 'optimal', primal, dual: dualPoint(program, rowDual) };
}

/** No duals: those of the last node hold for its branch only. */
function wholeNumberAnswer(guard: PivotGuard, scaling: Scaling, stop: StopCause | undefined): EngineAnswer {
  const { incumbent, rootBound } = guard;
  const primal = incumbent && requireNumbers(unscaledPrimal(incumbent.primal, scaling));
  const found = primal === undefined ? {} : { primal };
  const proved = rootBound === undefined ? {} : { bound: rootBound };
  if (stop === 'time limit' || stop === 'cancelled') return { reason: stop, ...found, ...proved };
  if (stop === 'gap reached') return { reason: 'optimal', ...found, ...proved };
  if (incumbent === undefined) return { reason: 'infeasible' };
  return { reason: 'optimal', ...found, bound: incumbent.objective };
}

/** The relaxation has no largest value; then a whole-number point, if there is any, can be bettered for ever. */
function withoutCosts(lpPackage: LpPackage, program: LinearProgram, limits: SolveLimits): EngineAnswer {
  const answer = solveProgram(lpPackage, { ...program, cost: new Float64Array(program.cost.length) }, limits);
  if (answer.reason === 'optimal') return { reason: 'unbounded' };
  return { reason: answer.reason };
}

function guardedProgram(translation: Translation, inner: LinearProgram, scaling: Scaling): Guarded {
  const sign = inner.sense === 'maximize' ? -1 : 1;
  const atOrigin = objectiveAt(inner, translation.origin);
  return {
    model: translation.model,
    whole: hasIntegers(inner),
    objective: (tableau) => (atOrigin + sign * tableau.matrix[tableau.rhsColumn]) / scaling.cost,
    readPrimal: translation.readPrimal,
  };
}

function requireSize(translation: Translation): void {
  const { nVariables, nConstraints } = translation.model;
  const cells = (nVariables + 1) * (nConstraints + 1);
  if (cells > LARGEST_TABLE) throw failure(`a dense table of ${nConstraints} by ${nVariables} is too large`);
}

function requireNumbers(point: Float64Array): Float64Array {
  if (!point.every(Number.isFinite)) throw failure('a figure of the answer is not a number');
  return point;
}

function failure(detail: string): EngineFailure {
  return new EngineFailure('javascript-lp-solver', detail);
}
