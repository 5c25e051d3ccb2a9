import type { LinearProgram } from './linear-program.js';

export interface ColumnSpec {
  readonly lower?: number;
  readonly upper?: number;
  readonly cost?: number;
  readonly integer?: boolean;
}

export interface RowSpec {
  readonly lower?: number;
  readonly upper?: number;
}

/**
 * Collects columns, rows and coefficients in any order and closes them into a LinearProgram. Coefficients
 * of the same cell add up; a cell that adds up to zero is left out. Columns are ≥ 0 unless said.
 *
 * @throws RangeError on a number that is not finite (bounds may be infinite) or on crossed bounds.
 */
export class ProgramBuilder<RowKey, ColumnKey> {
  private readonly columns: {
    key: ColumnKey;
    lower: number;
    upper: number;
    cost: number;
    integer: boolean;
  }[] = [];
  private readonly rows: { key: RowKey; lower: number; upper: number }[] = [];
  private readonly cells: Map<number, number>[] = [];
  private offset = 0;

  constructor(private readonly sense: 'maximize' | 'minimize' = 'maximize') {}

  /** Adds a column and returns its index. */
  column(key: ColumnKey, spec: ColumnSpec = {}): number {
    const { lower = 0, upper = Number.POSITIVE_INFINITY, cost = 0, integer = false } = spec;
    requireInterval(key, lower, upper);
    requireFinite(key, cost);
    this.cells.push(new Map());
    return this.columns.push({ key, lower, upper, cost, integer }) - 1;
  }

  /** Adds a row, free unless bounds are given, and returns its index. */
  row(key: RowKey, spec: RowSpec = {}): number {
    const { lower = Number.NEGATIVE_INFINITY, upper = Number.POSITIVE_INFINITY } = spec;
    requireInterval(key, lower, upper);
    return this.rows.push({ key, lower, upper }) - 1;
  }

  add(row: number, column: number, coefficient: number): void {
    requireFinite(this.rows[row]?.key, coefficient);
    const cells = this.cells[column];
    cells.set(row, (cells.get(row) ?? 0) + coefficient);
  }

  addCost(column: number, amount: number): void {
    requireFinite(this.columns[column].key, amount);
    this.columns[column].cost += amount;
  }

  addOffset(amount: number): void {
    requireFinite('offset', amount);
    this.offset += amount;
  }

  build(): LinearProgram<RowKey, ColumnKey> {
    const starts = new Int32Array(this.columns.length + 1);
    const rows: number[] = [];
    const values: number[] = [];
    this.cells.forEach((cells, j) => {
      for (const [row, value] of [...cells].sort((a, b) => a[0] - b[0])) {
        if (value === 0) continue;
        rows.push(row);
        values.push(value);
      }
      starts[j + 1] = rows.length;
    });
    return {
      sense: this.sense,
      offset: this.offset,
      columnKeys: this.columns.map((column) => column.key),
      rowKeys: this.rows.map((row) => row.key),
      cost: Float64Array.from(this.columns, (column) => column.cost),
      columnLower: Float64Array.from(this.columns, (column) => column.lower),
      columnUpper: Float64Array.from(this.columns, (column) => column.upper),
      integer: Uint8Array.from(this.columns, (column) => (column.integer ? 1 : 0)),
      rowLower: Float64Array.from(this.rows, (row) => row.lower),
      rowUpper: Float64Array.from(this.rows, (row) => row.upper),
      matrix: { starts, rows: Int32Array.from(rows), values: Float64Array.from(values) },
    };
  }
}

function requireFinite(key: unknown, value: number): void {
  if (!Number.isFinite(value))
    throw new RangeError(`${JSON.stringify(key)}: ${value} is not a finite number`);
}

function requireInterval(key: unknown, lower: number, upper: number): void {
  if (!(lower <= upper)) throw new RangeError(`${JSON.stringify(key)}: bounds ${lower} and ${upper} cross`);
}
