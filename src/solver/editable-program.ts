import { columnCount, type LinearProgram, rowCount } from '../program/linear-program.js';

/**
 * A program that a session may change. It owns copies of its arrays; `current` is a live view of them.
 *
 * @throws RangeError on an index outside the program, on NaN, and on a cost or coefficient that is not finite.
 */
export class EditableProgram {
  private program: LinearProgram;

  constructor(program: LinearProgram) {
    this.program = {
      ...program,
      cost: program.cost.slice(),
      columnLower: program.columnLower.slice(),
      columnUpper: program.columnUpper.slice(),
      rowLower: program.rowLower.slice(),
      rowUpper: program.rowUpper.slice(),
      matrix: { ...program.matrix, values: program.matrix.values.slice() },
    };
  }

  get current(): LinearProgram {
    return this.program;
  }

  setCost(column: number, cost: number): void {
    this.requireColumn(column);
    requireFinite(cost);
    this.program.cost[column] = cost;
  }

  setColumnBounds(column: number, lower: number, upper: number): void {
    this.requireColumn(column);
    requireBounds(lower, upper);
    this.program.columnLower[column] = lower;
    this.program.columnUpper[column] = upper;
  }

  setRowBounds(row: number, lower: number, upper: number): void {
    this.requireRow(row);
    requireBounds(lower, upper);
    this.program.rowLower[row] = lower;
    this.program.rowUpper[row] = upper;
  }

  setCoefficient(row: number, column: number, value: number): void {
    this.requireRow(row);
    this.requireColumn(column);
    requireFinite(value);
    const { starts, rows, values } = this.program.matrix;
    let k = starts[column];
    while (k < starts[column + 1] && rows[k] < row) k++;
    if (k < starts[column + 1] && rows[k] === row) values[k] = value;
    else this.insert(k, row, column, value);
  }

  private insert(at: number, row: number, column: number, value: number): void {
    const { starts, rows, values } = this.program.matrix;
    this.program = {
      ...this.program,
      matrix: {
        starts: starts.map((start, j) => (j > column ? start + 1 : start)),
        rows: Int32Array.from([...rows.subarray(0, at), row, ...rows.subarray(at)]),
        values: Float64Array.from([...values.subarray(0, at), value, ...values.subarray(at)]),
      },
    };
  }

  private requireColumn(column: number): void {
    if (!(Number.isInteger(column) && column >= 0 && column < columnCount(this.program))) {
      throw new RangeError(`no column ${column}`);
    }
  }

  private requireRow(row: number): void {
    if (!(Number.isInteger(row) && row >= 0 && row < rowCount(this.program)))
      throw new RangeError(`no row ${row}`);
  }
}

function requireFinite(value: number): void {
  if (!Number.isFinite(value)) throw new RangeError(`${value} is not a finite number`);
}

function requireBounds(lower: number, upper: number): void {
  if (Number.isNaN(lower) || Number.isNaN(upper)) throw new RangeError(`bounds ${lower} and ${upper}`);
}
