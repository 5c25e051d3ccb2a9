import type { Formulation } from '../../planning/formulate.js';
import type { ColumnKey, RowKey } from '../../planning/keys.js';
import type { Certificate } from '../../program/certificate.js';
import type { Certified, SolverAnswer } from '../../solver/answer.js';
import { Unfinished } from '../unfinished.js';

/** A certified optimum. Money is present value. */
export interface Best {
  readonly formulation: Formulation;
  readonly primal: Float64Array;
  /** Of the program, with whole numbers of its relaxation. */
  readonly rowDual: Float64Array;
  readonly value: number;
  /** No plan is worth more: proved; with whole numbers the engine's word where it gave one. */
  readonly bound: number;
  /** Σ of the absolute money terms. */
  readonly scale: number;
  readonly certificate: Certificate<RowKey, ColumnKey>;
}

/** What counts as no difference in value, relative to the scale. */
export const VALUE_TOLERANCE = 1e-9;

export function bestOf(
  formulation: Formulation,
  { answer, rowDual, certificate }: Certified<RowKey, ColumnKey>,
): Best {
  const { objective: value, bound: proved = Number.POSITIVE_INFINITY, scale } = certificate;
  const bound = Math.max(value, answer.bound ?? proved);
  return { formulation, primal: answer.primal, rowDual, value, bound, scale, certificate };
}

/** Stopped before a first plan. */
export function isWithoutPlan<R, C>(answer: SolverAnswer<R, C>): boolean {
  return answer.kind === 'stopped' && answer.reason === 'time limit' && answer.best === undefined;
}

/** Undefined where there is no feasible plan. @throws Unfinished */
export function optimumOf<R, C>(answer: SolverAnswer<R, C>): Certified<R, C> | undefined {
  if (answer.kind === 'solved') return answer;
  if (answer.kind === 'infeasible') return undefined;
  if (answer.kind === 'stopped' && answer.reason === 'time limit' && answer.best !== undefined) {
    return answer.best;
  }
  const isCancelled = answer.kind === 'stopped' && answer.reason === 'cancelled';
  throw new Unfinished(isCancelled ? 'cancelled' : 'no certified answer');
}
