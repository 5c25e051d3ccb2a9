import type { PlannedDocument } from '../plan-document.js';
import { printable } from '../printable.js';
import { html, type Markup, ready } from './markup.js';
import { cautionsNote, planPage } from './plan-page.js';
import { STYLE } from './style.js';

/**
 * A plan as one file of HTML with nothing to load: all months together, or one of them.
 *
 * @param month index of a month
 */
export function standalonePlan(document: PlannedDocument, month: number | undefined): string {
  const { title, units, horizon } = document;
  const page: Markup = html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${printable(title)}: plan</title>
<style>${ready(STYLE)}</style>
</head>
<body>
<main>
<h1>${printable(title)}</h1>
<p class="note">${horizon.months === 1 ? 'One month' : `${horizon.months} months`} from ${horizon.firstMonth}. ${unitsNote(units)}</p>
${planPage(document, { month })}
${cautionsNote(document)}
</main>
</body>
</html>
`;
  return page.text;
}

/** In which units and how figures are written, on every page. */
export function unitsNote(units: { readonly mass: string; readonly currency: string }): string {
  return `Every mass in ${units.mass}, every amount in ${units.currency}. Figures: a point before decimals, commas between thousands; months YYYY-MM.`;
}
