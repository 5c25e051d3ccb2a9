import type { Plant } from '../../plant/plant.js';
import { formatFigure } from '../figure.js';
import type { JudgedDocument } from '../offer-document.js';
import { limitEntryInWords, priceInWords } from '../offer-words.js';
import type { Section } from '../section.js';

export function quoteSection({ quote, breakEven, units, askedMargin }: JudgedDocument): Section {
  const unit = { ...breakEven, ...quote?.unit };
  return {
    title: 'Price to quote for a firm monthly volume',
    table: {
      columns: [
        { head: 'volume a month', kind: 'mass' },
        { head: 'price', kind: 'text' },
        { head: 'as one price for all months', kind: 'money by mass' },
      ],
      rows: (quote?.prices ?? []).map(({ volume, price, flatPrice }) => [
        volume,
        price === undefined ? undefined : priceInWords(price, unit, units),
        flatPrice,
      ]),
    },
    notes: [
      ...(quote !== undefined && quote.unit.per !== breakEven.per
        ? [`By ${units.mass}, because its materials do not have one price by ${units.mass}.`]
        : []),
      askedMargin === 0
        ? 'At these prices the plant is as well off as without the offer.'
        : 'At these prices the offer leaves what is asked.',
    ],
  };
}

/** Rungs of the ladder that are printed; all are in the document. */
const MOST_RUNGS = 24;
const MOST_BOTTLENECKS = 2;
const MOST_LIMITS = 4;

export function ladderSection({ ladder = [], quote, units }: JudgedDocument, plant: Plant): Section {
  const step = Math.max(1, Math.ceil(ladder.length / MOST_RUNGS));
  const shown = ladder.filter((_, i) => i % step === 0 || i === ladder.length - 1);
  const price = (value: number | undefined) =>
    value === undefined || quote === undefined ? undefined : priceInWords(value, quote.unit, units);
  return {
    title: 'Quote ladder',
    table: {
      columns: [
        { head: 'up to', kind: 'mass' },
        { head: 'break-even', kind: 'text' },
        { head: `of the last ${units.mass}`, kind: 'text' },
        { head: 'what is used up before', kind: 'text' },
      ],
      rows: shown.map(({ monthlyMin, breakEven, marginal, bottlenecks }) => [
        monthlyMin,
        price(breakEven),
        price(marginal),
        bottlenecks
          .slice(0, MOST_BOTTLENECKS)
          .map((each) => limitEntryInWords(each, plant))
          .join('; '),
      ]),
    },
    notes: quote === undefined ? [] : ladderNotes(quote, shown.length, ladder.length, units.mass, plant),
  };
}

function ladderNotes(
  { largest, exact }: NonNullable<JudgedDocument['quote']>,
  shown: number,
  all: number,
  mass: string,
  plant: Plant,
): string[] {
  const limits = largest.limits.slice(0, MOST_LIMITS).map((each) => limitEntryInWords(each, plant));
  return [
    `Firm volumes of a full month. At most ${formatFigure(largest.volume, 1)} ${mass} a month can be served: ${limits.join('; ') || 'all that can come in'}.`,
    ...(shown < all ? [`${shown} of ${all} breaks are shown; the JSON has them all.`] : []),
    ...(exact ? [] : ['Between the volumes shown the prices are estimates on a straight line.']),
  ];
}
