import { dualProof } from './dual-proof.js';
import { type LinearProgram, objectiveAt } from './linear-program.js';
import { integralityViolation, rowFigures, type Violation, violationOf } from './violation.js';

export { primalViolation, type Violation } from './violation.js';

/**
 * A proof, from the program's own coefficients, that a point is feasible and that no point is better by
 * more than the gap. Knows no engine. Five conditions, each relative to its own scale:
 * primal feasibility, dual feasibility, complementary slackness, duality gap, integrality.
 */
export interface Certificate<RowKey = unknown, ColumnKey = unknown> {
  readonly accepted: boolean;
  readonly tolerance: number;
  /** What every gap is relative to: S, the sum of the absolute money terms. */
  readonly scale: number;
  readonly objective: number;
  /** Best objective that any point could have, proved by the duals; absent where no duals were given or they prove nothing. */
  readonly bound?: number;
  /** |bound − objective| / scale */
  readonly gap?: number;
  readonly primal: Violation<RowKey, ColumnKey>;
  readonly dual?: Violation<RowKey, ColumnKey>;
  readonly complementarity?: Violation<RowKey, ColumnKey>;
  /** Largest distance of a whole-number column from a whole number. */
  readonly integrality: Violation<RowKey, ColumnKey>;
  /** The conditions that fail; empty when accepted. */
  readonly failures: readonly CertificateCondition[];
}

export type CertificateCondition =
  | 'primal feasibility'
  | 'dual feasibility'
  | 'complementary slackness'
  | 'duality gap'
  | 'integrality';

export interface CertifiedPoint {
  readonly primal: Float64Array;
  /** rowDual = d objective / d right side, in the program's own sense. */
  readonly rowDual?: Float64Array;
}

export interface CertificateOptions {
  readonly tolerance?: number;
  /** S; by default Σ|cost_j x_j| + |offset|. */
  readonly scale?: number;
  /** Largest gap to accept, relative to the scale; by default the tolerance. */
  readonly gap?: number;
}

export const CERTIFICATE_TOLERANCE = 1e-6;

/**
 * Checks a point against a program. For a program with whole numbers give the duals of its relaxation:
 * they prove the bound; complementarity is then not asked for, since the point is not the relaxation's.
 */
export function certify<R, C>(
  program: LinearProgram<R, C>,
  point: CertifiedPoint,
  options: CertificateOptions = {},
): Certificate<R, C> {
  const tolerance = options.tolerance ?? CERTIFICATE_TOLERANCE;
  const objective = objectiveAt(program, point.primal);
  const scale = options.scale ?? moneyScale(program, point.primal);
  const rows = rowFigures(program, point.primal);
  const primal = violationOf(program, point.primal, rows);
  const integrality = integralityViolation(program, point.primal);
  const failures: CertificateCondition[] = [];
  if (!(primal.amount <= tolerance)) failures.push('primal feasibility');
  if (!(integrality.amount <= tolerance)) failures.push('integrality');
  const base = { tolerance, scale, objective, primal, integrality };
  if (point.rowDual === undefined) return { accepted: failures.length === 0, ...base, failures };

  const proof = dualProof(program, point.primal, point.rowDual, rows, tolerance);
  const gap = Math.abs(proof.bound - objective) / (scale > 0 ? scale : 1);
  const whole = program.integer.includes(1);
  if (!(proof.dual.amount <= tolerance)) failures.push('dual feasibility');
  if (!whole && !(proof.complementarity.amount <= tolerance)) failures.push('complementary slackness');
  if (!(gap <= (options.gap ?? tolerance))) failures.push('duality gap');
  return {
    accepted: failures.length === 0,
    ...base,
    bound: proof.bound,
    gap,
    dual: proof.dual,
    ...(whole ? {} : { complementarity: proof.complementarity }),
    failures,
  };
}

/** S of a program at a point: Σ|cost_j x_j| + |offset|. */
export function moneyScale(program: LinearProgram, point: Float64Array): number {
  let sum = Math.abs(program.offset);
  for (let j = 0; j < point.length; j++) sum += Math.abs(program.cost[j] * point[j]);
  return sum;
}
