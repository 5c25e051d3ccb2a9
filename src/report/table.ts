import { type FigureKind, formatKind, type ReportUnits, unitOf } from './figure.js';
import { type TextRow, textTable } from './text-table.js';

/** A table as data: full precision, every figure with what it measures. Print and CSV are made from it. */
export interface Table {
  readonly columns: readonly TableColumn[];
  readonly rows: readonly TableRow[];
}

export interface TableColumn {
  readonly head: string;
  readonly kind: 'text' | FigureKind;
}

/** Texts and figures in the order of the columns; undefined where there is nothing to say. */
export type TableRow = readonly (string | number | undefined)[];

/** A table in print, its last `totals` rows under a rule. */
export function printTable(table: Table, units: ReportUnits, totals = 0): string {
  const { columns, rows } = table;
  const printed: TextRow[] = rows.map((row) =>
    row.map((cell, i) => (typeof cell === 'string' ? cell : printCell(cell, columns[i].kind, units))),
  );
  if (totals > 0 && totals < printed.length) printed.splice(printed.length - totals, 0, 'rule');
  return textTable(
    columns.map(({ head, kind }) =>
      kind === 'text' ? { head, align: 'left' } : { head, unit: unitOf(kind, units), align: 'right' },
    ),
    printed,
  );
}

function printCell(value: number | undefined, kind: TableColumn['kind'], units: ReportUnits): string {
  if (kind === 'text') return '';
  return formatKind(value, kind, units);
}
