import type { AffineChange } from './affine-change.js';
import { ProgramBuilder } from './builder.js';
import { cellsByRow } from './cells-by-row.js';
import type { LinearProgram } from './linear-program.js';

/** A row of the program, a bound of one of its columns, or the parameter itself. */
export type ParametricRow<R, C> =
  | { readonly kind: 'row'; readonly row: R }
  | { readonly kind: 'bound'; readonly column: C };

/**
 * The parameter as a column of its own, to be made as large or as small as the limits allow:
 *
 *     maximize (or minimize) θ   subject to   rowLower + θ·r ≤ A x ≤ rowUpper + θ·s  and the bounds alike,
 *     0 ≤ θ ≤ width
 *
 * The last column is θ. Costs do not matter here. The change must leave the matrix as it is.
 */
export function withParameterColumn<R, C>(
  program: LinearProgram<R, C>,
  change: AffineChange,
  width: number,
  sense: 'maximize' | 'minimize',
): LinearProgram<ParametricRow<R, C>, C | 'parameter'> {
  const builder = new ProgramBuilder<ParametricRow<R, C>, C | 'parameter'>(sense);
  const theta = program.cost.length;
  const bounds: { column: number; rate: number; side: 'lower' | 'upper' }[] = [];
  program.columnKeys.forEach((key, column) => {
    const [low, high] = [change.columnLower.get(column), change.columnUpper.get(column)];
    if (low !== undefined) bounds.push({ column, rate: low, side: 'lower' });
    if (high !== undefined) bounds.push({ column, rate: high, side: 'upper' });
    builder.column(key, {
      lower: low === undefined ? program.columnLower[column] : Number.NEGATIVE_INFINITY,
      upper: high === undefined ? program.columnUpper[column] : Number.POSITIVE_INFINITY,
    });
  });
  builder.column('parameter', { upper: width, cost: 1 });
  const cells = cellsByRow(program);
  program.rowKeys.forEach((row, i) => {
    const lower = { lower: program.rowLower[i], rate: change.rowLower.get(i) ?? 0 };
    const upper = { upper: program.rowUpper[i], rate: change.rowUpper.get(i) ?? 0 };
    const add = (spec: { lower?: number; upper?: number }, rate: number) => {
      const at = builder.row({ kind: 'row', row }, spec);
      for (const [column, value] of cells[i]) builder.add(at, column, value);
      if (rate !== 0) builder.add(at, theta, -rate);
    };

    if (lower.rate === upper.rate) add({ lower: lower.lower, upper: upper.upper }, lower.rate);
    else {
      if (Number.isFinite(lower.lower)) add({ lower: lower.lower }, lower.rate);
      if (Number.isFinite(upper.upper)) add({ upper: upper.upper }, upper.rate);
    }
  });
  for (const { column, rate, side } of bounds) {
    const bound = side === 'lower' ? program.columnLower[column] : program.columnUpper[column];
    const row = builder.row({ kind: 'bound', column: program.columnKeys[column] }, { [side]: bound });
    builder.add(row, column, 1);
    builder.add(row, theta, -rate);
  }
  return builder.build();
}
