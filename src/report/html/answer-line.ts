import { formatKind, formatMoney } from '../figure.js';
import type { PlannedDocument } from '../plan-document.js';
import { sumOf } from '../sum.js';
import { html, type Markup } from './markup.js';

/** A plan to compare with: what it is called, and its document. */
export interface SavedMargin {
  readonly name: string;
  readonly document: PlannedDocument;
}

/** The answer in one line: the margin, by mass received, and what has changed. */
export function answerLine(
  document: PlannedDocument,
  month: number | undefined,
  saved: SavedMargin | undefined,
): Markup {
  const { units, horizon, status } = document;
  const { margin, received } = marginOf(document, month);
  const last = document.months[document.months.length - 1].month;
  const span = month === undefined ? `${horizon.firstMonth} to ${last}` : document.months[month].month;
  return html`<div class="answer">
<p class="margin"><span class="what">Margin, ${span}</span> <strong data-figure="margin">${formatMoney(margin, units.currency)}</strong></p>
<p>${received > 0 && html`<b>${formatKind(margin / received, 'money by mass', units)}</b> ${units.currency}/${units.mass} received (${formatKind(received, 'mass', units)} ${units.mass}). `}${changeSince(document, month, margin, saved)}${status === 'stopped' && html` <b>Stopped early: this is the best plan found by then.</b>`}</p>
</div>`;
}

function changeSince(
  { units }: PlannedDocument,
  month: number | undefined,
  margin: number,
  saved: SavedMargin | undefined,
): Markup | undefined {
  if (saved === undefined) return undefined;
  const at = month === undefined ? undefined : month;
  if (at !== undefined && at >= saved.document.months.length) return undefined;
  const before = marginOf(saved.document, at).margin;
  const change = margin - before;
  const said = formatMoney(Math.abs(change), units.currency);
  if (/^[0.,]+ /.test(said)) return html`The same as ${saved.name}.`;
  const word = change > 0 ? 'more' : 'less';
  return html`<b data-figure="change">${said} ${word}</b> than ${saved.name} (${formatMoney(before, units.currency)}).`;
}

function marginOf(document: PlannedDocument, month: number | undefined) {
  if (month === undefined) return { margin: document.statement.margin, received: document.total.received };
  return {
    margin: document.statement.byMonth[month],
    received: sumOf(document.months[month].receipts, (each) => each.mass),
  };
}
