import type { Plant } from '../../plant/plant.js';
import type { QuestionReport } from '../finance/question-report.js';
import { SOURCES_TITLE } from '../offer/displaced-chart.js';
import { displacementBridge } from '../offer/displacement-bridge.js';
import type { JudgedDocument, OfferDocument } from '../offer-document.js';
import { offerReport } from '../offer-report.js';
import { displacedChart } from './displaced-figure.js';
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
  return html`${judged !== undefined && html`<div class="pair">${quoteChart(judged)}${displacedChart(judged)}</div>`}
<div class="tables">${sections.map((section) => html`<div>${figureTable(section, report.units)}</div>`)}</div>`;
}

/** The tables of an offer, to take along. */
export type OfferTables = Pick<QuestionReport, 'tables' | 'units'>;

export function offerTables(plant: Plant, document: OfferDocument): OfferTables {
  const { tables, units } = offerReport(plant, document);
  return { tables, units };
}

/** Sections that are answered with the quotes. */
const LONGER = [
  'Price to quote for a firm monthly volume',
  'Quote ladder',
  SOURCES_TITLE,
  'What each term is worth',
  'If the buyer calls',
];

function marginBridge(document: JudgedDocument): Markup | undefined {
  const svg = displacementBridge(document);
  return svg === undefined
    ? undefined
    : chartFigure(svg, 'from the margin without the offer to that with it');
}
