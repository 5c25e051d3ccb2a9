import { smallLadder, smallLadderScale } from '../charts/small-ladder.js';
import { formatKind } from '../figure.js';
import { ladderFigures } from '../ladder-figures.js';
import type { PlannedDocument } from '../plan-document.js';
import { html, type Markup, ready } from './markup.js';

/** The months as small ladders on one scale; each leads to its month. */
export function monthStrip(
  document: PlannedDocument,
  chosen: number | undefined,
  addressOf?: (month: string | undefined) => string,
): Markup {
  const { months, units, statement } = document;
  const figures = months.map((_, i) => ladderFigures(document, i));
  const scale = smallLadderScale(figures);
  const entry = (
    label: string | undefined,
    margin: number,
    drawing: Markup | undefined,
    current: boolean,
  ) => {
    const said = html`${drawing}<span class="month">${label ?? 'all months'}</span> <span class="amount">${formatKind(margin, 'money', units)}</span>`;
    const place = label === undefined && html` class="all"`;
    if (addressOf === undefined) return html`<li${place}>${said}</li>`;
    return html`<li${place}><a href="${addressOf(label)}"${current && html` aria-current="true"`}>${said}</a></li>`;
  };
  return html`<section aria-labelledby="months"><h2 id="months">Month by month: margin in ${units.currency}, and the ladder on one scale</h2>
<ol class="months">
${entry(undefined, statement.margin, undefined, chosen === undefined)}
${months.map(({ month }, i) => entry(month, statement.byMonth[i], ready(smallLadder(figures[i], scale)), chosen === i))}
</ol></section>`;
}
