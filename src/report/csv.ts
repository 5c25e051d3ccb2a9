import { type ReportUnits, unitOf } from './figure.js';
import type { Table, TableColumn } from './table.js';

/**
 * A table as CSV after RFC 4180: a head line, fields between commas, lines ended by CRLF, quotation marks
 * where a field needs them. Figures in full, as JavaScript reads them back; nothing where there is no figure.
 *
 * A text that a spreadsheet would take for a formula (it begins with = + - @ or a tab, line feed, carriage
 * return, or their full-width forms) gets an apostrophe before it. Figures never do.
 */
export function csvText(table: Table, units: ReportUnits): string {
  const head = table.columns.map((column) => field(headOf(column, units)));
  const rows = table.rows.map((row) =>
    row.map((cell) => field(typeof cell === 'string' ? guarded(cell) : figure(cell))),
  );
  return [head, ...rows].map((fields) => `${fields.join(',')}\r\n`).join('');
}

function headOf({ head, kind }: TableColumn, units: ReportUnits): string {
  if (kind === 'text' || kind === 'count') return head;
  return `${head} (${kind === 'share' ? 'share' : unitOf(kind, units)})`;
}

function figure(value: number | undefined): string {
  return value === undefined ? '' : String(value);
}

function guarded(text: string): string {
  return /^[=+\-@\t\n\r\uff1d\uff0b\uff0d\uff20]/.test(text) ? `'${text}` : text;
}

function field(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
