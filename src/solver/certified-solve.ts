import { type CertificateOptions, certify } from '../program/certificate.js';
import { hasIntegers, type LinearProgram, relaxed } from '../program/linear-program.js';
import type { Attempt, Certified } from './answer.js';
import { type Engine, type EngineAnswer, EngineFailure, type SolveLimits, solveOnce } from './port.js';

/** One engine's try at a program: what came of it, and the point where it certifies. */
export interface Trial<RowKey, ColumnKey> {
  readonly attempt: Attempt<RowKey, ColumnKey>;
  readonly certified?: Certified<RowKey, ColumnKey>;
}

/**
 * Asks one engine once and certifies what it says. A program with whole numbers is solved without them
 * first: the duals of that relaxation are what proves a bound for any whole-number point.
 */
export function certifiedSolve<R, C>(
  engine: Engine,
  program: LinearProgram<R, C>,
  limits: SolveLimits = {},
  options: CertificateOptions = {},
): Trial<R, C> {
  return failing(engine, () => {
    if (!hasIntegers(program)) {
      const answer = solveOnce(engine, program, limits);
      return judge(engine, program, answer, answer.dual?.rowDual, options);
    }
    const started = performance.now();
    const relaxation = solveOnce(engine, relaxed(program), { ...limits, onProgress: undefined });
    if (relaxation.reason !== 'optimal' && relaxation.reason !== 'unbounded') {
      return { attempt: { engine: engine.name, outcome: relaxation.reason } };
    }
    const answer = solveOnce(engine, program, withLess(limits, (performance.now() - started) / 1000));
    return judge(engine, program, answer, relaxation.dual?.rowDual, options);
  });
}

/**
 * The trial that an engine's answer amounts to; `rowDual` of the program, or of its relaxation. Without
 * duals nothing is proved: a linear program that was cut short has no plan to show.
 */
export function judge<R, C>(
  engine: Engine,
  program: LinearProgram<R, C>,
  answer: EngineAnswer,
  rowDual: Float64Array | undefined,
  options: CertificateOptions,
): Trial<R, C> {
  const { reason, primal } = answer;
  if (reason === 'infeasible' || reason === 'unbounded')
    return { attempt: { engine: engine.name, outcome: reason } };
  if (primal === undefined) {
    if (reason === 'optimal') throw new EngineFailure(engine.name, 'an optimum without a point');
    return { attempt: { engine: engine.name, outcome: reason } };
  }
  const certificate = certify(
    program,
    { primal, ...(rowDual === undefined ? {} : { rowDual }) },
    // The gap to the relaxation may be wide; the certificate still says how wide.
    hasIntegers(program) ? { ...options, gap: Number.POSITIVE_INFINITY } : options,
  );
  if (certificate.accepted && rowDual !== undefined) {
    return {
      attempt: { engine: engine.name, outcome: reason === 'optimal' ? 'certified' : reason },
      certified: { engine: engine.name, answer: { ...answer, primal }, certificate, rowDual },
    };
  }
  if (reason === 'optimal') return { attempt: { engine: engine.name, outcome: 'uncertified', certificate } };
  return { attempt: { engine: engine.name, outcome: reason } };
}

/** Runs a trial; an engine that breaks is an outcome, everything else that is thrown is not. */
export function failing<R, C>(engine: Engine, trial: () => Trial<R, C>): Trial<R, C> {
  try {
    return trial();
  } catch (error) {
    if (!(error instanceof EngineFailure)) throw error;
    return { attempt: { engine: engine.name, outcome: 'failed', detail: error.detail } };
  }
}

export function withLess(limits: SolveLimits, seconds: number): SolveLimits {
  return limits.seconds === undefined
    ? limits
    : { ...limits, seconds: Math.max(0, limits.seconds - seconds) };
}
