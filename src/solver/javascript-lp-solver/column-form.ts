import type { LinearProgram } from '../../program/linear-program.js';

/**
 * A column in variables v ≥ 0: fixed x = base; shifted x = base + sign·v with v ≤ width; split x = v − w.
 */
export type ColumnForm =
  | { readonly kind: 'fixed'; readonly base: number }
  | { readonly kind: 'shifted'; readonly base: number; readonly sign: 1 | -1; readonly width: number }
  | { readonly kind: 'split' };

/** How far from a whole number a bound of a whole-number column may lie and still count as one. */
const WHOLE_TOLERANCE = 1e-9;

/** @returns 'infeasible' when no whole number lies between the bounds of a whole-number column. */
export function columnForms(program: LinearProgram): readonly ColumnForm[] | 'infeasible' {
  const forms: ColumnForm[] = [];
  for (let j = 0; j < program.cost.length; j++) {
    const whole = program.integer[j] === 1;
    const lower = whole ? Math.ceil(program.columnLower[j] - WHOLE_TOLERANCE) : program.columnLower[j];
    const upper = whole ? Math.floor(program.columnUpper[j] + WHOLE_TOLERANCE) : program.columnUpper[j];
    if (lower > upper) return 'infeasible';
    forms.push(columnForm(lower, upper));
  }
  return forms;
}

function columnForm(lower: number, upper: number): ColumnForm {
  if (lower === upper) return { kind: 'fixed', base: lower };
  if (Number.isFinite(lower)) return { kind: 'shifted', base: lower, sign: 1, width: upper - lower };
  if (Number.isFinite(upper))
    return { kind: 'shifted', base: upper, sign: -1, width: Number.POSITIVE_INFINITY };
  return { kind: 'split' };
}
