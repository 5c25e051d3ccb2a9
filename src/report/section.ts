import type { ReportUnits } from './figure.js';
import { printable } from './printable.js';
import { printTable, type Table } from './table.js';
import { REPORT_WIDTH, wrapText } from './text-table.js';

/** One part of a printed report: a heading, a table, and what is said under it. */
export interface Section {
  readonly title: string;
  readonly table: Table;
  /** Rows at the table's end that are totals. */
  readonly totals?: number;
  readonly notes?: readonly string[];
}

/** A section in print; nothing where its table is empty. */
export function printSection(section: Section, units: ReportUnits): string {
  const { title, table, totals = 0, notes = [] } = section;
  if (table.rows.length <= totals) return '';
  return `${title.toUpperCase()}\n${printTable(table, units, totals)}${notes.map(printParagraph).join('')}\n`;
}

/** Text broken into lines of the report's width. */
export function printParagraph(text: string): string {
  return wrapText(printable(text), REPORT_WIDTH)
    .map((line) => `${line}\n`)
    .join('');
}
