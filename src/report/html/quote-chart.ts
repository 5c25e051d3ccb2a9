import { formatFigure } from '../figure.js';
import { quoteChart as chartOfQuotes, drawnLadder } from '../offer/quote-chart.js';
import type { JudgedDocument } from '../offer-document.js';
import { html, type Markup } from './markup.js';
import { chartFigure } from './question-body.js';

/** What the last tonne, and the whole volume, must bring, over the firm monthly volume; and what is offered. */
export function quoteChart(document: JudgedDocument): Markup | undefined {
  const svg = chartOfQuotes(document);
  if (svg === undefined) return undefined;
  const { drawn, isCut } = drawnLadder(document);
  const chart = chartFigure(svg, 'price to quote by volume');
  if (!isCut) return chart;
  const { mass } = document.units;
  return html`${chart}<p class="note">From ${formatFigure(drawn[drawn.length - 1].monthlyMin, 1)} ${mass} on the last ${mass} is dearer than can be drawn here; the ladder below goes on.</p>`;
}
