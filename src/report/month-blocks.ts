import { type FigureKind, formatKind, type ReportUnits, unitOf } from './figure.js';
import { displayWidth, printable } from './printable.js';
import { REPORT_WIDTH, type TextRow, textTable } from './text-table.js';

/** One line of a month-by-month table: a figure for each month. */
export interface MonthRow {
  readonly name: string;
  /** [month] */
  readonly values: readonly (number | undefined)[];
  /** Over the months, where it makes sense. */
  readonly total?: number;
}

const LONGEST_NAME = 26;
const GAP = 2;

/**
 * A table with the months as columns, in as many blocks one under the other as the width asks for; totals,
 * where there are any, stand in the last column of the last block. The last `sums` rows stand under a rule.
 */
export function printMonthBlocks(
  title: string,
  months: readonly string[],
  rows: readonly MonthRow[],
  kind: FigureKind,
  units: ReportUnits,
  sums = 0,
): string {
  if (rows.length <= sums) return '';
  const withTotal = rows.some((row) => row.total !== undefined);
  const heads = withTotal ? [...months, 'total'] : months;
  const cells = rows.map(({ values, total }) =>
    (withTotal ? [...values, total] : values).map((value) => formatKind(value, kind, units)),
  );
  const names = rows.map((row) => printable(row.name));
  const perBlock = columnsPerBlock(names, heads, cells);
  const unit = unitOf(kind, units);
  const blocks: string[] = [];
  for (let from = 0; from < heads.length; from += perBlock) {
    const to = from + perBlock;
    const lines: TextRow[] = names.map((name, i) => [name, ...cells[i].slice(from, to)]);
    if (sums > 0) lines.splice(lines.length - sums, 0, 'rule');
    blocks.push(
      textTable(
        [
          { head: '', align: 'left' },
          ...heads.slice(from, to).map((head) => ({ head, align: 'right' as const })),
        ],
        lines,
      ),
    );
  }
  return `${title.toUpperCase()}${unit === '' ? '' : ` (${unit})`}\n${blocks.join('\n')}\n`;
}

function columnsPerBlock(
  names: readonly string[],
  heads: readonly string[],
  cells: readonly (readonly string[])[],
): number {
  const name = Math.min(LONGEST_NAME, Math.max(...names.map(displayWidth)));
  const figure = Math.max(...[...heads, ...cells.flat()].map((text) => text.length));
  return Math.max(1, Math.floor((REPORT_WIDTH - name) / (figure + GAP)));
}
