import type { CellObject, Sheet } from 'write-excel-file/node';
import { minorDigits } from '../currency.js';
import { type FigureKind, type ReportUnits, unitOf } from '../figure.js';
import { printable } from '../printable.js';
import type { Section } from '../section.js';
import type { TableColumn, TableRow } from '../table.js';

export type Cell = CellObject | null;

export interface WorkbookSheet extends Omit<Sheet<Buffer>, 'data' | 'sheet'> {
  readonly sheet: string;
  readonly data: Cell[][];
}

/** A section as a sheet: title, head with units, figures in full, totals as formulas where they are sums. */
export function sectionSheet(section: Section, units: ReportUnits): WorkbookSheet {
  const { title, table, totals = 0, notes = [] } = section;
  const { columns, rows } = table;
  const last = rows.length - totals;
  return {
    sheet: title,
    columns: columns.map(({ kind }, i) => ({ width: kind === 'text' ? (i === 0 ? 34 : 26) : 16 })),
    stickyRowsCount: HEAD,
    data: [
      [{ value: printable(title), fontWeight: 'bold' }],
      columns.map((column) => headCell(column, units)),
      ...rows.map((row, i) =>
        columns.map((column, at): Cell => {
          const isTotal = i >= last;
          const sum = isTotal ? sumOver(rows, at, last, i) : undefined;
          const bold = isTotal ? ({ fontWeight: 'bold' } as const) : {};
          const cell =
            sum === undefined ? plainCell(row[at], column, units) : formulaCell(at, sum, column, units);
          return cell === null ? null : { ...cell, ...bold };
        }),
      ),
      ...notes.map((note): Cell[] => [{ value: printable(note) }]),
    ],
  };
}

/** Rows above the table's first. */
const HEAD = 2;
/** Of a sum, as a share of its parts: rounding, no difference. */
const ROUNDING = 1e-9;

function headCell({ head, kind }: TableColumn, units: ReportUnits): Cell {
  const unit = kind === 'text' ? '' : unitOf(kind, units);
  return {
    value: unit === '' ? head : `${head} (${unit})`,
    fontWeight: 'bold',
    wrap: true,
    align: kind === 'text' ? 'left' : 'right',
    bottomBorderStyle: 'thin',
  };
}

function plainCell(value: TableRow[number], { kind }: TableColumn, units: ReportUnits): Cell {
  if (value === undefined || value === '') return null;
  if (typeof value === 'string') return { value: printable(value), type: String };
  if (kind === 'text') return { value: String(value), type: String };
  return { value, type: Number, format: formatOf(kind, units), align: 'right' };
}

/** The rows whose sum a total is: those of the table, or these and the totals before it. */
function sumOver(rows: readonly TableRow[], at: number, last: number, row: number): number | undefined {
  const total = rows[row][at];
  if (typeof total !== 'number') return undefined;
  for (const end of row > last ? [last, row] : [last]) {
    const parts = rows.slice(0, end).map((each) => each[at]);
    if (end < 2 || !parts.some((part) => typeof part === 'number')) continue;
    const figures = parts.map((part) => (typeof part === 'number' ? part : 0));
    const sum = figures.reduce((so, far) => so + far, 0);
    const size = figures.reduce((so, far) => so + Math.abs(far), 0);
    if (Math.abs(sum - total) <= ROUNDING * size) return end;
  }
  return undefined;
}

function formulaCell(at: number, end: number, { kind }: TableColumn, units: ReportUnits): Cell {
  const letter = columnLetter(at);
  const format = kind === 'text' ? '0' : formatOf(kind, units);
  return {
    value: `SUM(${letter}${HEAD + 1}:${letter}${HEAD + end})`,
    type: 'Formula',
    format,
    align: 'right',
  };
}

/** @example columnLetter(27) // 'AB' */
function columnLetter(at: number): string {
  const own = String.fromCharCode(65 + (at % 26));
  return at < 26 ? own : `${columnLetter(Math.floor(at / 26) - 1)}${own}`;
}

function formatOf(kind: FigureKind, units: ReportUnits): string {
  const money = minorDigits(units.currency);
  const digits = (count: number) => (count === 0 ? '#,##0' : `#,##0.${'0'.repeat(count)}`);
  switch (kind) {
    case 'money':
    case 'money by mass':
      return digits(money);
    case 'money by energy':
      return digits(money + 2);
    case 'share':
      return '0.0%';
    case 'energy':
    case 'count':
      return digits(0);
    default:
      return digits(1);
  }
}
