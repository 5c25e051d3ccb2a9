import { ladderChart } from '../charts/ladder-chart.js';
import { uprightLadder } from '../charts/upright-ladder.js';
import { formatKind, formatMoney } from '../figure.js';
import { type LadderFigures, ladderFigures } from '../ladder-figures.js';
import type { PlannedDocument } from '../plan-document.js';
import { ladderSection } from '../sections/mass.js';
import { figureTable } from './figure-table.js';
import { html, type Markup, ready } from './markup.js';
import { type WaysOn, waysOn } from './ways-on.js';

/** The ladder by weight: the drawing, what it says, and its figures as a table. */
export function ladderFigure(
  document: PlannedDocument,
  month: number | undefined,
  explained?: WaysOn,
): Markup {
  const { units } = document;
  const figures = ladderFigures(document, month);
  const ways = explained ?? waysOn(document, month);
  const first = new Map(
    [...ways].flatMap(([material, [way]]) => (way === undefined ? [] : [[material, way]])),
  );
  const title = titleOf(figures, document);
  const description =
    'Columns from coarse to fine: as wide as the whole tire that stops there, as high as a mass unit of it brings, so that area is money. The table under it holds the same figures.';
  const chart = { figures, units, waysOn: first, title, description };
  const rungs = month === undefined ? document.ladder.total : document.ladder.months[month];
  return html`<section aria-labelledby="ladder"><h2 id="ladder">${title}</h2>
<div class="scroll wide-only" tabindex="0" role="region" aria-label="Ladder by weight, drawing">${ready(ladderChart(chart))}</div>
<div class="narrow-only">${ready(uprightLadder(chart))}</div>
<ul class="key">
<li><span class="swatch gate"></span> paid at the gate</li>
<li><span class="swatch earned"></span> added by reducing</li>
<li><span class="swatch lost"></span> taken away again by reducing</li>
<li><span class="swatch credit"></span> steel and other by-products, receipts before freight (their worth is in the columns)</li>
<li><span class="swatch waste"></span> waste, its charge</li>
</ul>
${figureTable(ladderSection(document, rungs, figures.rest), units)}
${asideTable(figures, document)}
</section>`;
}

function titleOf({ tires, net, rest, margin }: LadderFigures, { units }: PlannedDocument): string {
  const { currency } = units;
  const less = rest < 0 ? `less ${formatMoney(-rest, currency)}` : `and ${formatMoney(rest, currency)}`;
  return `Where the money is earned: ${formatKind(tires, 'mass', units)} ${units.mass} of whole tire bring ${formatMoney(net, currency)}, ${less} that is not by rung, is ${formatMoney(margin, currency)}`;
}

function asideTable({ byProducts, waste }: LadderFigures, { units }: PlannedDocument): Markup | undefined {
  const rows = [
    ...byProducts.map(({ name, mass, money }) => [name, 'by-product', mass, money / mass, money]),
    ...waste.map(({ name, mass, money }) => [name, 'waste', mass, -money / mass, -money]),
  ];
  return figureTable(
    {
      title: 'Beside the ladder',
      table: {
        columns: [
          { head: 'material', kind: 'text' },
          { head: 'goes as', kind: 'text' },
          { head: 'mass', kind: 'mass' },
          { head: 'on average', kind: 'money by mass' },
          { head: 'in total', kind: 'money' },
        ],
        rows,
      },
    },
    units,
  );
}
