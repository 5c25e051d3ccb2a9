import { type Certificate, certify } from '../../program/certificate.js';
import type { Formulation } from '../formulate.js';
import type { ColumnKey, RowKey } from '../keys.js';
import type { Plan } from '../plan.js';
import { readAmounts } from './amounts.js';
import { ladderOf } from './ladder.js';
import { ledgerOf } from './ledger.js';
import { massBalanceOf } from './mass-balance.js';
import { monthsOfPlan } from './months.js';
import { cashOf, statementOf } from './statement.js';
import { worthOf } from './worth.js';

/** A point of the program and the duals that its worths come from. */
export interface SolvedPoint {
  readonly primal: Float64Array;
  readonly rowDual: Float64Array;
}

/** Turns a point of the program into the plan, in the plant's nouns. The certificate is the caller's. */
export function readPlan(
  formulation: Formulation,
  point: SolvedPoint,
  certificate: Certificate<RowKey, ColumnKey>,
): Plan {
  const { plant, program, columns } = formulation;
  const amounts = readAmounts(columns, point.primal);
  const ledger = ledgerOf(plant, amounts);
  const statement = statementOf(plant, ledger);
  const worth = worthOf(plant, program, point.rowDual);
  return {
    months: monthsOfPlan(plant, amounts),
    statement,
    cash: cashOf(plant, ledger),
    worth,
    massBalance: massBalanceOf(plant, amounts),
    ladder: ladderOf(plant, amounts, worth, statement.byMonth),
    certificate,
  };
}

/** S of a point: the sum of the statement's absolute money lines. */
export function scaleOf(formulation: Formulation, primal: Float64Array): number {
  const { plant, columns } = formulation;
  return statementOf(plant, ledgerOf(plant, readAmounts(columns, primal))).scale;
}

/** Checks a point against the plant's own coefficients, on the scale S of its statement. */
export function certifyPlan(
  formulation: Formulation,
  point: { readonly primal: Float64Array; readonly rowDual?: Float64Array },
  gap?: number,
): Certificate<RowKey, ColumnKey> {
  const scale = scaleOf(formulation, point.primal);
  return certify(formulation.program, point, { scale, ...(gap === undefined ? {} : { gap }) });
}
