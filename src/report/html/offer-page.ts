import type { Plant } from '../../plant/plant.js';
import { bridgeChart } from '../charts/bridge-chart.js';
import type { QuestionReport } from '../finance/question-report.js';
import type { JudgedDocument, OfferDocument } from '../offer-document.js';
import { offerReport } from '../offer-report.js';
import { displacedChart, displacedSection, displacedTable } from './displaced-figure.js';
import { figureTable } from './figure-table.js';
import { html, type Markup } from './markup.js';
import { chartFigure } from './question-body.js';
import { quoteChart } from './quote-chart.js';

/** A judged offer: the verdict and what it displaces; `quotes` stands for what takes longer to work out. */
export function offerPage(plant: Plant, document: OfferDocument, quotes: Markup): Markup {
  const report = offerReport(plant, document);
  const [verdict, ...lines] = report.headline;
  return html`<div class="answer"><p class="lead" data-figure="verdict">${verdict}</p>
${lines.map((line) => html`<p>${line}</p>`)}</div>
${document.status === 'judged' && marginBridge(document)}
${quotes}
<div class="tables">${report.sections.map((section) => {
    const table = figureTable(section, report.units);
    return table === undefined ? undefined : html`<div>${table}</div>`;
  })}</div>`;
}

/** The prices to quote by volume, and what each term is worth. */
export function offerQuotes(plant: Plant, document: OfferDocument): Markup {
  const report = offerReport(plant, document);
  const sections = report.sections.filter(({ title }) => LONGER.includes(title));
  const judged = document.status === 'judged' ? document : undefined;
  const sources = judged === undefined ? undefined : displacedSection(judged);
  return html`${judged !== undefined && html`<div class="pair">${quoteChart(judged)}${displacedChart(judged)}</div>`}
<div class="tables">${[...sections, ...(sources ?? [])].map((section) => html`<div>${figureTable(section, report.units)}</div>`)}</div>`;
}

/** The tables of an offer, to take along. */
export type OfferTables = Pick<QuestionReport, 'tables' | 'units'>;

export function offerTables(plant: Plant, document: OfferDocument): OfferTables {
  const { tables, units } = offerReport(plant, document);
  const sources = document.status === 'judged' ? displacedTable(document) : undefined;
  return {
    tables: [...tables, ...(sources === undefined ? [] : [{ name: 'sources', table: sources }])],
    units,
  };
}

/** Sections that are answered with the quotes. */
const LONGER = [
  'Price to quote for a firm monthly volume',
  'Quote ladder',
  'What each term is worth',
  'If the buyer calls',
];

function marginBridge({ displaced, offer, units }: JudgedDocument): Markup | undefined {
  if (displaced === undefined) return undefined;
  const { bridge } = displaced;
  return chartFigure(
    bridgeChart({
      title: `${offer.name}: from the margin without it to the margin with it`,
      description: 'Bars up are gains, bars down are losses; they add up. The table holds the figures.',
      yTitle: `Margin (${units.currency})`,
      from: { name: 'without', value: bridge.from },
      to: { name: 'with', value: bridge.to },
      steps: bridge.effects
        .filter(({ amount }) => amount !== 0)
        .map(({ effect, amount }) => ({ name: effect, amount })),
    }),
    'from the margin without the offer to that with it',
  );
}
