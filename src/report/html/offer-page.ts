import type { Plant } from '../../plant/plant.js';
import { bridgeChart } from '../charts/bridge-chart.js';
import { curveChart } from '../charts/curve-chart.js';
import { formatFigure } from '../figure.js';
import type { JudgedDocument, OfferDocument } from '../offer-document.js';
import { offerReport } from '../offer-report.js';
import { priceInWords } from '../offer-words.js';
import { figureTable } from './figure-table.js';
import { html, type Markup } from './markup.js';
import { chartFigure } from './question-body.js';

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
  return html`${document.status === 'judged' && quoteChart(document)}
<div class="tables">${sections.map((section) => html`<div>${figureTable(section, report.units)}</div>`)}</div>`;
}

/** Sections that are answered with the quotes. */
const LONGER = [
  'Price to quote for a firm monthly volume',
  'Quote ladder',
  'What each term is worth',
  'If the buyer calls',
];

/** How much dearer than the whole volume the last tonne may be to be drawn. */
const STEEPEST = 3;

/** What the last tonne, and the whole volume, must bring, over the firm monthly volume; and what is offered. */
function quoteChart(document: JudgedDocument): Markup | undefined {
  const { ladder = [], quote, breakEven, units } = document;
  const priced = ladder.filter(
    ({ marginal, breakEven: whole }) => marginal !== undefined && whole !== undefined,
  );
  if (quote === undefined || priced.length === 0) return undefined;
  const own =
    breakEven.kind === quote.unit.kind && breakEven.per === quote.unit.per ? breakEven.own : undefined;
  const steepest = STEEPEST * Math.max(...priced.map((each) => each.breakEven ?? 0), own ?? 0);
  const drawn = priced.filter(({ marginal = 0 }) => marginal <= steepest);
  const isCut = drawn.length < priced.length;
  const last = drawn[drawn.length - 1]?.monthlyMin ?? 0;
  const stairs = drawn.flatMap(({ monthlyMin, marginal = 0 }, i) => [
    { x: i === 0 ? 0 : drawn[i - 1].monthlyMin, y: marginal },
    { x: monthlyMin, y: marginal },
  ]);
  const unit =
    quote.unit.kind === 'factor' ? 'times its prices' : `${units.currency}/${quote.unit.per ?? units.mass}`;
  const chart = chartFigure(
    curveChart({
      title: `Price to quote for a firm monthly volume: up to ${formatFigure(quote.largest.volume, 1)} ${units.mass} can be served`,
      description: `What the last ${units.mass} and the whole volume must bring so that the plant is as well off${own === undefined ? '' : `; ${priceInWords(own, breakEven, units)} is offered`}. The table holds the figures.`,
      xTitle: `Firm volume (${units.mass} a month)`,
      yTitle: `Price (${unit})`,
      lines: [
        { name: `the last ${units.mass}`, points: stairs },
        {
          name: 'the whole volume',
          points: drawn.map(({ monthlyMin, breakEven: y = 0 }) => ({ x: monthlyMin, y })),
        },
        ...(own === undefined
          ? []
          : [
              {
                name: 'as offered',
                points: [
                  { x: 0, y: own },
                  { x: last, y: own },
                ],
              },
            ]),
      ],
    }),
    'price to quote by volume',
  );
  if (!isCut) return chart;
  return html`${chart}<p class="note">From ${formatFigure(last, 1)} ${units.mass} on the last ${units.mass} is dearer than can be drawn here; the ladder below goes on.</p>`;
}

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
