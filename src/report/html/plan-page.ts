import type { PlannedDocument } from '../plan-document.js';
import { planSentences } from '../plan-sentences.js';
import { answerLine, type SavedMargin } from './answer-line.js';
import { certificateNote } from './certificate-note.js';
import { ladderFigure } from './ladder-figure.js';
import { html, type Markup } from './markup.js';
import { monthStrip } from './month-strip.js';
import { planTables } from './plan-tables.js';
import type { WaysOn } from './ways-on.js';

export interface PlanPageOptions {
  /** Index of a month; undefined: all of them together. */
  readonly month: number | undefined;
  /** What the plan is compared with. */
  readonly saved?: SavedMargin;
  /** Further sentences, such as those of an explanation. */
  readonly sentences?: readonly string[];
  readonly waysOn?: WaysOn;
  /** What stands under the sentences, such as the way to an explanation. */
  readonly later?: Markup;
  /** Where a month's page is; undefined: all of them. Absent: months are not links. */
  readonly addressOf?: (month: string | undefined) => string;
}

/** A plan as the body of a page: the answer, the reasons, the picture, the tables, the proof. */
export function planPage(document: PlannedDocument, options: PlanPageOptions): Markup {
  const month = document.months.length === 1 ? 0 : options.month;
  const sentences = [...planSentences(document, month), ...(options.sentences ?? [])].slice(0, 7);
  return html`
${answerLine(document, month, options.saved)}
<section aria-labelledby="why"><h2 id="why">In short</h2>
<ul class="sentences">${sentences.map((sentence) => html`<li>${sentence}</li>`)}</ul>
${options.later}</section>
<div data-part="ladder">${ladderFigure(document, month, options.waysOn)}</div>
${document.months.length > 1 && monthStrip(document, month, options.addressOf)}
${planTables(document, month)}
${certificateNote(document)}`;
}

/** What stands under every page of a plan. */
export function cautionsNote({ cautions, warnings }: Pick<PlannedDocument, 'cautions' | 'warnings'>): Markup {
  return html`<section class="cautions" aria-labelledby="cautions"><h2 id="cautions">Before anyone acts on it</h2>
${cautions.map((caution) => html`<p>${caution}</p>`)}
${warnings.length > 0 && html`<ul>${warnings.map(({ message }) => html`<li>${message}</li>`)}</ul>`}</section>`;
}
