import type { LinearProgram } from '../../program/linear-program.js';
import { type ColumnForm, columnForms } from './column-form.js';
import type { LpConstraint, LpModel, LpPackage, LpVariable, Tableau } from './package.js';

/** A program in the package's terms, and the way back. */
export interface Translation {
  readonly model: LpModel;
  /** Column values of the program where every variable of the package is 0. */
  readonly origin: Float64Array;
  readPrimal(): Float64Array;
  readRowDual(): Float64Array;
}

/** Largest amount, of scaled figures, by which a row without variables may miss its bounds. */
const ROW_TOLERANCE = 1e-9;

interface RowForm {
  readonly lower?: LpConstraint;
  readonly upper?: LpConstraint;
}

/**
 * The package knows variables ≥ 0 and rows ≤ or ≥ only. Lower bounds are shifted out, upper bounds become
 * rows, free columns are split (its own unrestricted variables give wrong optima), fixed columns go into the
 * right sides, equal bounds of a row become two rows. Free rows and zero coefficients are left out.
 *
 * @returns 'infeasible' when a row without variables, or a whole number without a place, cannot hold.
 */
export function translate(lpPackage: LpPackage, program: LinearProgram): Translation | 'infeasible' {
  const columns = columnForms(program);
  if (columns === 'infeasible') return 'infeasible';
  const model = new lpPackage.Model();
  model.usePresolve = false;
  if (program.sense === 'maximize') model.maximize();
  else model.minimize();
  const origin = Float64Array.from(columns, (form) => (form.kind === 'split' ? 0 : form.base));
  const rows = addRows(model, program, columns, origin);
  if (rows === 'infeasible') return 'infeasible';
  const variables = columns.map((form, j) => addColumn(model, program, j, form, rows));
  return {
    model,
    origin,
    readPrimal: () => readPrimal(model.tableau, columns, variables),
    readRowDual: () => Float64Array.from(rows, (row) => readRowDual(model.tableau, row, program.sense)),
  };
}

function addRows(
  model: LpModel,
  program: LinearProgram,
  columns: readonly ColumnForm[],
  origin: Float64Array,
): readonly RowForm[] | 'infeasible' {
  const { starts, rows, values } = program.matrix;
  const atOrigin = new Float64Array(program.rowLower.length);
  const hasVariables = new Uint8Array(program.rowLower.length);
  for (let j = 0; j < origin.length; j++) {
    for (let k = starts[j]; k < starts[j + 1]; k++) {
      atOrigin[rows[k]] += values[k] * origin[j];
      if (columns[j].kind !== 'fixed' && values[k] !== 0) hasVariables[rows[k]] = 1;
    }
  }
  const forms: RowForm[] = [];
  for (let i = 0; i < atOrigin.length; i++) {
    const lower = program.rowLower[i] - atOrigin[i];
    const upper = program.rowUpper[i] - atOrigin[i];
    if (hasVariables[i] === 0) {
      const tolerance = ROW_TOLERANCE * (1 + Math.abs(atOrigin[i]));
      if (lower > tolerance || upper < -tolerance) return 'infeasible';
      forms.push({});
    } else {
      forms.push({
        ...(Number.isFinite(lower) ? { lower: model.greaterThan(lower) } : {}),
        ...(Number.isFinite(upper) ? { upper: model.smallerThan(upper) } : {}),
      });
    }
  }
  return forms;
}

function addColumn(
  model: LpModel,
  program: LinearProgram,
  j: number,
  form: ColumnForm,
  rows: readonly RowForm[],
): readonly LpVariable[] {
  if (form.kind === 'fixed') return [];
  const signs = form.kind === 'split' ? [1, -1] : [form.sign];
  return signs.map((sign) => {
    const variable = model.addVariable(sign * program.cost[j], `x${j}${sign}`, program.integer[j] === 1);
    const { starts, rows: rowOf, values } = program.matrix;
    for (let k = starts[j]; k < starts[j + 1]; k++) {
      if (values[k] === 0) continue;
      rows[rowOf[k]].lower?.addTerm(sign * values[k], variable);
      rows[rowOf[k]].upper?.addTerm(sign * values[k], variable);
    }
    if (form.kind === 'shifted' && Number.isFinite(form.width))
      model.smallerThan(form.width).addTerm(1, variable);
    return variable;
  });
}

function readPrimal(
  tableau: Tableau,
  columns: readonly ColumnForm[],
  variables: readonly (readonly LpVariable[])[],
): Float64Array {
  return Float64Array.from(columns, (form, j) => {
    const [first, second] = variables[j].map((variable) => variableValue(tableau, variable));
    switch (form.kind) {
      case 'fixed':
        return form.base;
      case 'shifted':
        return form.base + form.sign * first;
      default:
        return first - second;
    }
  });
}

function variableValue(tableau: Tableau, variable: LpVariable): number {
  const row = tableau.rowByVarIndex[variable.index];
  return row === undefined || row < 0 ? 0 : tableau.matrix[row * tableau.width + tableau.rhsColumn];
}

/**
 * d objective / d right side: the slack's reduced cost, negated for ≤, and once more when minimizing, since
 * the table maximizes; both sides of a row add up.
 */
function readRowDual(tableau: Tableau, row: RowForm, sense: LinearProgram['sense']): number {
  const sign = sense === 'maximize' ? 1 : -1;
  const lower = row.lower === undefined ? 0 : reducedCost(tableau, row.lower);
  const upper = row.upper === undefined ? 0 : reducedCost(tableau, row.upper);
  return sign * (lower - upper);
}

function reducedCost(tableau: Tableau, constraint: LpConstraint): number {
  const column = tableau.colByVarIndex[constraint.index];
  return column === undefined || column < 0 ? 0 : tableau.matrix[column];
}
