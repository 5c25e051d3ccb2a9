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

/** A judged offer: the verdict, the price to quote, what it displaces, what each term is worth. */
export function offerPage(plant: Plant, document: OfferDocument): Markup {
  const report = offerReport(plant, document);
  const [verdict, ...lines] = report.headline;
  return html`<div class="answer"><p class="lead" data-figure="verdict">${verdict}</p>
${lines.map((line) => html`<p>${line}</p>`)}</div>
${document.status === 'judged' && quoteChart(document)}
${document.status === 'judged' && marginBridge(document)}
<div class="tables">${report.sections.map((section) => {
    const table = figureTable(section, report.units);
    return table === undefined ? undefined : html`<div>${table}</div>`;
  })}</div>`;
}

/** What the last tonne, and the whole volume, must bring, over the firm monthly volume; and what is offered. */
function quoteChart(document: JudgedDocument): Markup | undefined {
  const { ladder = [], quote, breakEven, units } = document;
  const priced = ladder.filter(
    ({ marginal, breakEven: whole }) => marginal !== undefined && whole !== undefined,
  );
  if (quote === undefined || priced.length === 0) return undefined;
  const last = priced[priced.length - 1].monthlyMin;
  const stairs = priced.flatMap(({ monthlyMin, marginal = 0 }, i) => [
    { x: i === 0 ? 0 : priced[i - 1].monthlyMin, y: marginal },
    { x: monthlyMin, y: marginal },
  ]);
  const unit =
    quote.unit.kind === 'factor' ? 'times its prices' : `${units.currency}/${quote.unit.per ?? units.mass}`;
  const own =
    breakEven.kind === quote.unit.kind && breakEven.per === quote.unit.per ? breakEven.own : undefined;
  return chartFigure(
    curveChart({
      title: `Price to quote for a firm monthly volume: up to ${formatFigure(quote.largest.volume, 1)} ${units.mass} can be served`,
      description: `What the last ${units.mass} and the whole volume must bring so that the plant is as well off${own === undefined ? '' : `; ${priceInWords(own, breakEven, units)} is offered`}. The table holds the figures.`,
      xTitle: `Firm volume (${units.mass} a month)`,
      yTitle: `Price (${unit})`,
      lines: [
        { name: `the last ${units.mass}`, points: stairs },
        {
          name: 'the whole volume',
          points: priced.map(({ monthlyMin, breakEven: y = 0 }) => ({ x: monthlyMin, y })),
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
