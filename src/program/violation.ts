import type { LinearProgram } from './linear-program.js';

/** The worst violation of one condition, relative to the scale of its row or column, and where it is. */
export interface Violation<RowKey = unknown, ColumnKey = unknown> {
  readonly amount: number;
  readonly row?: RowKey;
  readonly column?: ColumnKey;
}

/** Largest breach of a bound or a row at any point, with or without a solver. */
export function primalViolation<R, C>(program: LinearProgram<R, C>, point: Float64Array): Violation<R, C> {
  return violationOf(program, point, rowFigures(program, point));
}

/** A x and the size of its largest term, by row. */
export interface RowFigures {
  readonly activity: Float64Array;
  readonly magnitude: Float64Array;
}

export function rowFigures({ rowLower, matrix }: LinearProgram, point: Float64Array): RowFigures {
  const { starts, rows, values } = matrix;
  const activity = new Float64Array(rowLower.length);
  const magnitude = new Float64Array(rowLower.length);
  for (let j = 0; j < point.length; j++) {
    if (point[j] === 0) continue;
    for (let k = starts[j]; k < starts[j + 1]; k++) {
      const term = values[k] * point[j];
      activity[rows[k]] += term;
      // A term that is no number stays one: it fails every comparison that follows.
      const size = Math.abs(term);
      if (!(size <= magnitude[rows[k]])) magnitude[rows[k]] = size;
    }
  }
  return { activity, magnitude };
}

/** Largest breach of a bound or a row, with the rows' figures at the point at hand. */
export function violationOf<R, C>(
  program: LinearProgram<R, C>,
  point: Float64Array,
  { activity, magnitude }: RowFigures,
): Violation<R, C> {
  let worst: Violation<R, C> = { amount: 0 };
  for (let j = 0; j < point.length; j++) {
    const amount =
      breach(point[j], program.columnLower[j], program.columnUpper[j]) / (1 + Math.abs(point[j]));
    if (!(amount <= worst.amount)) worst = { amount, column: program.columnKeys[j] };
  }
  for (let i = 0; i < activity.length; i++) {
    const amount = breach(activity[i], program.rowLower[i], program.rowUpper[i]) / (1 + magnitude[i]);
    if (!(amount <= worst.amount)) worst = { amount, row: program.rowKeys[i] };
  }
  return worst;
}

/** Largest distance of a whole-number column from a whole number. */
export function integralityViolation<R, C>(
  program: LinearProgram<R, C>,
  point: Float64Array,
): Violation<R, C> {
  let worst: Violation<R, C> = { amount: 0 };
  program.integer.forEach((flag, j) => {
    if (flag !== 1) return;
    const amount = Math.abs(point[j] - Math.round(point[j]));
    if (!(amount <= worst.amount)) worst = { amount, column: program.columnKeys[j] };
  });
  return worst;
}

function breach(value: number, lower: number, upper: number): number {
  if (Number.isNaN(value)) return Number.POSITIVE_INFINITY;
  return Math.max(0, lower - value, value - upper);
}
