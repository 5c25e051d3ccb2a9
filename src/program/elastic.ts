import { ProgramBuilder } from './builder.js';
import type { LinearProgram } from './linear-program.js';

/** A bound that may give way. */
export interface GivingBound {
  readonly kind: 'row' | 'column';
  readonly index: number;
  readonly bound: 'lower' | 'upper';
}

export type ElasticRow<R> =
  | { readonly kind: 'row'; readonly key: R }
  | { readonly kind: 'bound'; readonly giving: number };

export type ElasticColumn<C> =
  | { readonly kind: 'column'; readonly key: C }
  | { readonly kind: 'give'; readonly giving: number };

export interface Elastic<R, C> {
  /** Minimizes the sum of what gives way; the columns of the program come first, in its order. */
  readonly program: LinearProgram<ElasticRow<R>, ElasticColumn<C>>;
  /** The column of what each bound gives. */
  readonly gives: readonly number[];
  /** The row that carries each bound. */
  readonly rows: readonly number[];
  /** Each bound's own value. */
  readonly sides: readonly number[];
}

/**
 * The program with bounds that may give way, each by a column of its own, whole numbers left out: minimize the
 * sum of what gives. It is feasible whatever the bounds are, as long as the rest is; its least sum is 0 if and
 * only if the program's relaxation is feasible. A lower bound gives down to 0 at most.
 */
export function elasticProgram<R, C>(
  program: LinearProgram<R, C>,
  giving: readonly GivingBound[],
): Elastic<R, C> {
  const builder = new ProgramBuilder<ElasticRow<R>, ElasticColumn<C>>('minimize');
  const gone = (kind: 'row' | 'column', bound: 'lower' | 'upper') =>
    new Set(giving.filter((each) => each.kind === kind && each.bound === bound).map(({ index }) => index));
  const noLower = gone('column', 'lower');
  const noUpper = gone('column', 'upper');
  program.columnKeys.forEach((key, j) => {
    builder.column(
      { kind: 'column', key },
      {
        lower: noLower.has(j) ? Math.min(0, program.columnLower[j]) : program.columnLower[j],
        upper: noUpper.has(j) ? Number.POSITIVE_INFINITY : program.columnUpper[j],
      },
    );
  });
  program.rowKeys.forEach((key, i) => {
    builder.row({ kind: 'row', key }, { lower: program.rowLower[i], upper: program.rowUpper[i] });
  });
  const { starts, rows, values } = program.matrix;
  for (let j = 0; j < program.columnKeys.length; j++) {
    for (let k = starts[j]; k < starts[j + 1]; k++) builder.add(rows[k], j, values[k]);
  }
  const gives: number[] = [];
  const carrying: number[] = [];
  giving.forEach(({ kind, index, bound }, position) => {
    const column = builder.column({ kind: 'give', giving: position }, { cost: 1 });
    const row = kind === 'row' ? index : boundRow(builder, program, index, bound, position);
    builder.add(row, column, bound === 'lower' ? 1 : -1);
    gives.push(column);
    carrying.push(row);
  });
  const sides = giving.map((bound) => sideOf(program, bound));
  return { program: builder.build(), gives, rows: carrying, sides };
}

/** The value of a bound. */
export function sideOf(program: LinearProgram, { kind, index, bound }: GivingBound): number {
  if (kind === 'row') return bound === 'lower' ? program.rowLower[index] : program.rowUpper[index];
  return bound === 'lower' ? program.columnLower[index] : program.columnUpper[index];
}

function boundRow<R, C>(
  builder: ProgramBuilder<ElasticRow<R>, ElasticColumn<C>>,
  program: LinearProgram<R, C>,
  column: number,
  bound: 'lower' | 'upper',
  giving: number,
): number {
  const side = sideOf(program, { kind: 'column', index: column, bound });
  const row = builder.row({ kind: 'bound', giving }, { [bound]: side });
  builder.add(row, column, 1);
  return row;
}

/** The program with bounds moved by what they give, and no further. */
export function givenWay<R, C>(
  program: LinearProgram<R, C>,
  giving: readonly GivingBound[],
  amounts: readonly number[],
): LinearProgram<R, C> {
  const sides = {
    row: { lower: program.rowLower.slice(), upper: program.rowUpper.slice() },
    column: { lower: program.columnLower.slice(), upper: program.columnUpper.slice() },
  };
  giving.forEach(({ kind, index, bound }, position) => {
    const by = amounts[position];
    sides[kind][bound][index] += bound === 'lower' ? -by : by;
  });
  return {
    ...program,
    rowLower: sides.row.lower,
    rowUpper: sides.row.upper,
    columnLower: sides.column.lower,
    columnUpper: sides.column.upper,
  };
}
