import { columnCount, type LinearProgram, rowCount } from '../program/linear-program.js';

/**
 * Factors, all powers of two, so that scaling and unscaling round nothing:
 *
 *     a'_ij = row_i · a_ij · column_j     x_j = column_j · x'_j     cost'_j = cost · column_j · c_j
 *
 * Columns of whole numbers keep their unit.
 */
export interface Scaling {
  readonly row: Float64Array;
  readonly column: Float64Array;
  readonly cost: number;
}

const PASSES = 4;

/**
 * Geometric equilibration: each row and column in turn is divided by √(smallest · largest) of its
 * coefficients; then one factor for all bounds and right sides, and one for all costs, puts their
 * geometric mean at 1. So an engine with absolute tolerances treats kilograms and kilotonnes, cents and
 * millions alike.
 */
export function equilibrate(program: LinearProgram): Scaling {
  const { starts, rows, values } = program.matrix;
  const row = new Float64Array(rowCount(program)).fill(1);
  const column = new Float64Array(columnCount(program)).fill(1);
  for (let pass = 0; pass < PASSES; pass++) {
    const extremes = new Extremes(row.length);
    for (let j = 0; j < column.length; j++) {
      for (let k = starts[j]; k < starts[j + 1]; k++) extremes.see(rows[k], Math.abs(values[k]) * column[j]);
    }
    for (let i = 0; i < row.length; i++) row[i] = 1 / extremes.middle(i);
    for (let j = 0; j < column.length; j++) {
      if (program.integer[j] === 1) continue;
      const one = new Extremes(1);
      for (let k = starts[j]; k < starts[j + 1]; k++) one.see(0, Math.abs(values[k]) * row[rows[k]]);
      column[j] = 1 / one.middle(0);
    }
  }
  roundToPowersOfTwo(row);
  roundToPowersOfTwo(column);
  if (!program.integer.includes(1)) rescaleQuantities(program, row, column);
  return { row, column, cost: costFactor(program, column) };
}

/** The program in scaled figures; its keys are the same. */
export function scaled<R, C>(program: LinearProgram<R, C>, scaling: Scaling): LinearProgram<R, C> {
  const { starts, rows, values } = program.matrix;
  const scaledValues = values.slice();
  for (let j = 0; j < scaling.column.length; j++) {
    for (let k = starts[j]; k < starts[j + 1]; k++)
      scaledValues[k] *= scaling.row[rows[k]] * scaling.column[j];
  }
  return {
    ...program,
    offset: program.offset * scaling.cost,
    cost: program.cost.map((cost, j) => cost * scaling.column[j] * scaling.cost),
    columnLower: program.columnLower.map((bound, j) => bound / scaling.column[j]),
    columnUpper: program.columnUpper.map((bound, j) => bound / scaling.column[j]),
    rowLower: program.rowLower.map((bound, i) => bound * scaling.row[i]),
    rowUpper: program.rowUpper.map((bound, i) => bound * scaling.row[i]),
    matrix: { starts, rows, values: scaledValues },
  };
}

/** Column values in the engine's units. */
export function scaledPrimal(point: Float64Array, scaling: Scaling): Float64Array {
  return point.map((value, j) => value / scaling.column[j]);
}

/** Column values in the program's own units. */
export function unscaledPrimal(point: Float64Array, scaling: Scaling): Float64Array {
  return point.map((value, j) => value * scaling.column[j]);
}

/** Row duals in the program's own units: y_i = row_i · y'_i / cost. */
export function unscaledRowDual(rowDual: Float64Array, scaling: Scaling): Float64Array {
  return rowDual.map((dual, i) => (dual * scaling.row[i]) / scaling.cost);
}

/** Moves all rows and columns by one factor, so that bounds and right sides have the geometric mean 1. */
function rescaleQuantities(program: LinearProgram, row: Float64Array, column: Float64Array): void {
  const figures = new Extremes(1);
  for (let i = 0; i < row.length; i++) {
    figures.see(0, Math.abs(program.rowLower[i]) * row[i]);
    figures.see(0, Math.abs(program.rowUpper[i]) * row[i]);
  }
  for (let j = 0; j < column.length; j++) {
    figures.see(0, Math.abs(program.columnLower[j]) / column[j]);
    figures.see(0, Math.abs(program.columnUpper[j]) / column[j]);
  }
  const factor = powerOfTwo(figures.middle(0));
  for (let i = 0; i < row.length; i++) row[i] /= factor;
  for (let j = 0; j < column.length; j++) column[j] *= factor;
}

function costFactor(program: LinearProgram, column: Float64Array): number {
  const figures = new Extremes(1);
  program.cost.forEach((cost, j) => {
    figures.see(0, Math.abs(cost) * column[j]);
  });
  return powerOfTwo(1 / figures.middle(0));
}

/** Smallest and largest of the positive finite figures seen in each slot. */
class Extremes {
  private readonly smallest: Float64Array;
  private readonly largest: Float64Array;

  constructor(slots: number) {
    this.smallest = new Float64Array(slots).fill(Number.POSITIVE_INFINITY);
    this.largest = new Float64Array(slots);
  }

  see(slot: number, figure: number): void {
    if (figure === 0 || figure === Number.POSITIVE_INFINITY) return;
    if (figure < this.smallest[slot]) this.smallest[slot] = figure;
    if (figure > this.largest[slot]) this.largest[slot] = figure;
  }

  /** √(smallest · largest); 1 where nothing was seen. */
  middle(slot: number): number {
    if (this.largest[slot] === 0) return 1;
    return Math.sqrt(this.smallest[slot]) * Math.sqrt(this.largest[slot]);
  }
}

function roundToPowersOfTwo(factors: Float64Array): void {
  for (let i = 0; i < factors.length; i++) factors[i] = powerOfTwo(factors[i]);
}

function powerOfTwo(factor: number): number {
  return 2 ** Math.round(Math.log2(factor));
}
