import { formatKind, type ReportUnits, unitOf } from '../figure.js';
import { printable } from '../printable.js';
import type { Section } from '../section.js';
import type { TableColumn } from '../table.js';
import { html, type Markup } from './markup.js';

/** A section of a report as a table: units once in the head, figures to the right, totals under a rule. */
export function figureTable(section: Section, units: ReportUnits): Markup | undefined {
  const { title, table, totals = 0, notes = [] } = section;
  const { columns, rows } = table;
  if (rows.length <= totals) return undefined;
  const last = rows.length - totals;
  const whole = html`
<div class="scroll" tabindex="0" role="region" aria-label="${printable(title)}">
<table>
<caption>${printable(title)}</caption>
<thead><tr>${columns.map((column) => headCell(column, units))}</tr></thead>
<tbody>${rows.slice(0, last).map((row) => bodyRow(row, columns, units))}</tbody>
${totals > 0 && html`<tfoot>${rows.slice(last).map((row) => bodyRow(row, columns, units))}</tfoot>`}
</table>
</div>
`;
  return html`${rows.length > LONG ? html`<details><summary>${printable(title)}: ${rows.length} rows</summary>${whole}</details>` : whole}${notesUnder(title, notes)}`;
}

/** Rows and notes above which they are shown when asked for. */
const LONG = 40;
const MANY = 6;

function notesUnder(title: string, notes: readonly string[]): Markup {
  const all = html`${notes.map((note) => html`<p class="note">${printable(note)}</p>`)}`;
  if (notes.length <= MANY) return all;
  return html`<details><summary>${printable(title)}: ${notes.length} notes</summary>${all}</details>`;
}

function headCell({ head, kind }: TableColumn, units: ReportUnits): Markup {
  if (kind === 'text') return html`<th scope="col">${head}</th>`;
  const unit = unitOf(kind, units);
  return html`<th scope="col" class="figure">${head}${unit !== '' && html` <span class="unit">${unit}</span>`}</th>`;
}

function bodyRow(
  row: readonly (string | number | undefined)[],
  columns: readonly TableColumn[],
  units: ReportUnits,
): Markup {
  return html`<tr>${row.map((cell, i) => {
    const { kind } = columns[i];
    if (i === 0) return html`<th scope="row">${cellText(cell, kind, units)}</th>`;
    if (kind === 'text')
      return html`<td${isShort(cell) && html` class="short"`}>${cellText(cell, kind, units)}</td>`;
    return html`<td class="figure">${cellText(cell, kind, units)}</td>`;
  })}</tr>`;
}

/** What stays on one line beside longer texts, such as a price with its unit. */
function isShort(cell: string | number | undefined): boolean {
  return typeof cell === 'string' && cell.length <= SHORT;
}

const SHORT = 18;

function cellText(cell: string | number | undefined, kind: TableColumn['kind'], units: ReportUnits): string {
  if (typeof cell === 'string') return printable(cell);
  return kind === 'text' ? '' : formatKind(cell, kind, units);
}
