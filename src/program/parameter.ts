import type { AffineChange } from './affine-change.js';
import { ProgramBuilder } from './builder.js';
import { columnCount, type LinearProgram, rowCount } from './linear-program.js';

/** Where a row or column of the program with a parameter comes from. */
export type ParameterRow =
  | { readonly kind: 'row'; readonly row: number }
  | { readonly kind: 'moving row' | 'moving column'; readonly at: number; readonly bound: 'lower' | 'upper' };

export type ParameterColumn =
  | { readonly kind: 'column'; readonly column: number }
  | { readonly kind: 'parameter' };

/**
 * The program in which the parameter of a change of bounds is itself a column, at most to be reached: maximize
 * θ subject to the program's bounds at θ. How far bounds can move until nothing is feasible.
 */
export function furthestParameter(
  program: LinearProgram,
  change: AffineChange,
  direction: 1 | -1,
): LinearProgram<ParameterRow, ParameterColumn> {
  const builder = new ProgramBuilder<ParameterRow, ParameterColumn>('maximize');
  for (let column = 0; column < columnCount(program); column++) {
    builder.column(
      { kind: 'column', column },
      {
        lower: change.columnLower.has(column) ? Number.NEGATIVE_INFINITY : program.columnLower[column],
        upper: change.columnUpper.has(column) ? Number.POSITIVE_INFINITY : program.columnUpper[column],
      },
    );
  }
  const theta = builder.column({ kind: 'parameter' }, { cost: 1 });
  for (let row = 0; row < rowCount(program); row++) {
    builder.row(
      { kind: 'row', row },
      {
        lower: change.rowLower.has(row) ? Number.NEGATIVE_INFINITY : program.rowLower[row],
        upper: change.rowUpper.has(row) ? Number.POSITIVE_INFINITY : program.rowUpper[row],
      },
    );
  }
  const moving = movingBounds(program, change);
  const movingRows = moving.map(({ kind, at, bound, side, rate }) => {
    const row = builder.row({ kind, at, bound }, { [bound]: side });
    builder.add(row, theta, -direction * rate);
    if (kind === 'moving column') builder.add(row, at, 1);
    return row;
  });
  const { starts, rows, values } = program.matrix;
  const rowsOf = new Map<number, number[]>();
  moving.forEach(({ kind, at }, i) => {
    if (kind === 'moving row') rowsOf.set(at, [...(rowsOf.get(at) ?? []), movingRows[i]]);
  });
  for (let column = 0; column < columnCount(program); column++) {
    for (let k = starts[column]; k < starts[column + 1]; k++) {
      builder.add(rows[k], column, values[k]);
      for (const row of rowsOf.get(rows[k]) ?? []) builder.add(row, column, values[k]);
    }
  }
  return builder.build();
}

interface MovingBound {
  readonly kind: 'moving row' | 'moving column';
  readonly at: number;
  readonly bound: 'lower' | 'upper';
  readonly side: number;
  readonly rate: number;
}

function movingBounds(program: LinearProgram, change: AffineChange): MovingBound[] {
  const list = (
    kind: MovingBound['kind'],
    bound: MovingBound['bound'],
    sides: Float64Array,
    rates: ReadonlyMap<number, number>,
  ) => [...rates].map(([at, rate]) => ({ kind, at, bound, side: sides[at], rate }));
  return [
    ...list('moving row', 'lower', program.rowLower, change.rowLower),
    ...list('moving row', 'upper', program.rowUpper, change.rowUpper),
    ...list('moving column', 'lower', program.columnLower, change.columnLower),
    ...list('moving column', 'upper', program.columnUpper, change.columnUpper),
  ];
}
