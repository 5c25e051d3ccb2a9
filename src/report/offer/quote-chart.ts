import { curveChart } from '../charts/curve-chart.js';
import { formatFigure } from '../figure.js';
import type { JudgedDocument } from '../offer-document.js';
import { priceInWords } from '../offer-words.js';

/** How much dearer than the whole volume the last tonne may be to be drawn. */
const STEEPEST = 3;

/** What the last tonne, and the whole volume, must bring, over the firm monthly volume; and what is offered. */
export function quoteChart(document: JudgedDocument): string | undefined {
  const { quote, breakEven, units } = document;
  const own = ownPrice(document);
  const { drawn } = drawnLadder(document);
  if (quote === undefined || drawn.length === 0) return undefined;
  const last = drawn[drawn.length - 1].monthlyMin;
  const stairs = drawn.flatMap(({ monthlyMin, marginal = 0 }, i) => [
    { x: i === 0 ? 0 : drawn[i - 1].monthlyMin, y: marginal },
    { x: monthlyMin, y: marginal },
  ]);
  const unit =
    quote.unit.kind === 'factor' ? 'times its prices' : `${units.currency}/${quote.unit.per ?? units.mass}`;
  return curveChart({
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
  });
}

/** The stretches of the quote ladder that can be drawn on one scale, and whether there are more. */
export function drawnLadder(document: JudgedDocument) {
  const { ladder = [] } = document;
  const priced = ladder.filter(
    ({ marginal, breakEven }) => marginal !== undefined && breakEven !== undefined,
  );
  const steepest =
    STEEPEST * Math.max(...priced.map(({ breakEven = 0 }) => breakEven), ownPrice(document) ?? 0);
  const drawn = priced.filter(({ marginal = 0 }) => marginal <= steepest);
  return { drawn, isCut: drawn.length < priced.length };
}

/** What is offered, where it is told in the unit of the quotes. */
function ownPrice({ quote, breakEven }: JudgedDocument): number | undefined {
  if (quote === undefined) return undefined;
  const { kind, per } = quote.unit;
  return breakEven.kind === kind && breakEven.per === per ? breakEven.own : undefined;
}
