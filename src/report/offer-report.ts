import type { BreakEvenAnswer } from '../analysis/offer/offer-answer.js';
import type { TermWorth } from '../analysis/offer/offer-terms.js';
import type { Plant } from '../plant/plant.js';
import { formatFigure, formatMoney, type ReportUnits } from './figure.js';
import type { QuestionReport } from './finance/question-report.js';
import { movesInWords } from './finance/words.js';
import type { JudgedDocument, OfferDocument } from './offer-document.js';
import { conflictInWords, limitEntryInWords, moveNoun, priceInWords, reasonInWords } from './offer-words.js';
import type { Section } from './section.js';
import type { Table } from './table.js';

/** A judged offer in every form. Made from its document; the plant gives the names. */
export function offerReport(plant: Plant, document: OfferDocument): QuestionReport {
  const { units } = document;
  if (document.status !== 'judged') {
    return { document, units, headline: [UNJUDGED[document.status]], sections: [], tables: [], charts: [] };
  }
  const sections = [
    gainSection(document),
    callsSection(document),
    quoteSection(document),
    ladderSection(document, plant),
    bridgeSection(document),
    movesSection(document, plant),
    monthsSection(document, plant),
    termsSection(document),
    uncertainSection(document),
  ];
  return {
    document,
    units,
    headline: headlineOf(document, plant),
    sections,
    tables: sections.flatMap(({ title, table }) =>
      table.rows.length === 0 ? [] : [{ name: title.toLowerCase().replace(/[^a-z]+/g, '-'), table }],
    ),
    charts: [],
  };
}

const UNJUDGED = {
  infeasible: 'No plan meets all the limits of this scenario together, with the offer or without it.',
  'no certified answer': 'No engine gave an answer that holds against the figures of the scenario.',
  cancelled: 'Stopped before the offer was judged.',
} as const;

function headlineOf(document: JudgedDocument, plant: Plant): string[] {
  const { offer, verdict, above, upTo, gain, breakEven, units, reasons, counting } = document;
  const { mass, currency } = units;
  const lines = [
    `${offer.name}, ${offer.buyer}: ${verdict.toUpperCase()}${
      verdict === 'take only above' && above !== undefined
        ? ` ${priceInWords(above, breakEven, units)}`
        : verdict === 'take only up to' && upTo !== undefined
          ? ` ${formatFigure(upTo, 1)} ${mass} a month`
          : ''
    }.`,
  ];
  if (gain !== undefined) {
    lines.push(
      `Signed at ${priceInWords(breakEven.own, breakEven, units)} it ${
        gain.presentValue < 0 ? 'loses' : 'adds'
      } ${formatMoney(Math.abs(gain.presentValue), currency)} (present value) against the best plan without it.`,
    );
  }
  if (breakEven.price !== undefined) {
    lines.push(
      `It breaks even at ${priceInWords(breakEven.price, breakEven, units)}${intervalInWords(breakEven, units)}.`,
    );
  }
  lines.push(...reasons.map(reasonInWords).filter((words) => words !== ''));
  if (document.servedShare !== undefined) {
    lines.push(`Of all its volumes ${formatFigure(document.servedShare * 100, 1)} % can be served.`);
  }
  if (document.conflict !== undefined && document.conflict.length > 0) {
    lines.push(
      `These cannot all be kept: ${document.conflict.map((member) => conflictInWords(member, plant)).join('; ')}.`,
    );
  }
  if (upTo !== undefined && verdict !== 'take only up to') {
    lines.push(`At its own price a firm volume pays up to ${formatFigure(upTo, 1)} ${mass} a month.`);
  }
  if (counting === 'in parts') lines.push('Whole shifts and windows are counted in parts.');
  lines.push(
    `${document.solves.total} solves: ${document.solves.verdict} for the verdict, ${document.solves.breakEven} for the break-even, ${document.solves.ladder} for the quotes.`,
  );
  return lines;
}

function intervalInWords({ interval, ...breakEven }: BreakEvenAnswer, units: ReportUnits): string {
  if (interval === undefined) return '';
  const { low, high } = interval;
  const at = (price: number) => priceInWords(price, breakEven, units);
  if (low !== undefined && high !== undefined)
    return ` (with whole shifts between ${at(low)} and ${at(high)})`;
  if (high !== undefined) return ` (with whole shifts surely at ${at(high)}, perhaps below)`;
  return low === undefined
    ? ' (with whole shifts this is open)'
    : ` (with whole shifts not below ${at(low)})`;
}

function gainSection({ gain, displaced, askedMargin }: JudgedDocument): Section {
  const rows =
    displaced === undefined || gain?.byMonth === undefined
      ? []
      : [
          ...displaced.months.map(({ month, before, after }) => [month, before, after, after - before]),
          ['total', displaced.bridge.from, displaced.bridge.to, displaced.bridge.to - displaced.bridge.from],
        ];
  return {
    title: 'Margin without and with the offer',
    table: {
      columns: [
        { head: 'month', kind: 'text' },
        { head: 'without', kind: 'money' },
        { head: 'with', kind: 'money' },
        { head: 'gain', kind: 'money' },
      ],
      rows,
    },
    totals: 1,
    ...(askedMargin === 0 ? {} : { notes: ['The verdict asks for the margin named.'] }),
  };
}

function callsSection({ calls, units }: JudgedDocument): Section {
  return {
    title: 'If the buyer calls',
    table: {
      columns: [
        { head: 'call', kind: 'text' },
        { head: 'gain, present value', kind: 'money' },
        { head: 'break-even', kind: 'text' },
      ],
      rows: calls.map(({ call, gain, breakEven }) => [
        call,
        gain,
        breakEven.price === undefined
          ? (breakEven.reason ?? '')
          : priceInWords(breakEven.price, breakEven, units),
      ]),
    },
  };
}

function quoteSection({ quote, breakEven, units }: JudgedDocument): Section {
  const unit = { ...breakEven, ...quote?.unit };
  return {
    title: 'Price to quote for a firm monthly volume',
    table: {
      columns: [
        { head: 'volume', kind: 'mass' },
        { head: 'price', kind: 'text' },
        { head: 'flat price', kind: 'money by mass' },
      ],
      rows: (quote?.prices ?? []).map(({ volume, price, flatPrice }) => [
        volume,
        price === undefined ? undefined : priceInWords(price, unit, units),
        flatPrice,
      ]),
    },
  };
}

/** Rungs of the ladder that are printed; all are in the document. */
const MOST_RUNGS = 24;

function ladderSection({ ladder = [], quote, units }: JudgedDocument, plant: Plant): Section {
  const step = Math.max(1, Math.ceil(ladder.length / MOST_RUNGS));
  const shown = ladder.filter((_, i) => i % step === 0 || i === ladder.length - 1);
  const price = (value: number | undefined) =>
    value === undefined || quote === undefined ? undefined : priceInWords(value, quote.unit, units);
  return {
    title: 'Quote ladder',
    table: {
      columns: [
        { head: 'up to, a month', kind: 'mass' },
        { head: 'break-even', kind: 'text' },
        { head: 'of the last tonne', kind: 'text' },
        { head: 'what is used up before', kind: 'text' },
      ],
      rows: shown.map(({ monthlyMin, breakEven, marginal, bottlenecks }) => [
        monthlyMin,
        price(breakEven),
        price(marginal),
        bottlenecks
          .slice(0, 2)
          .map((each) => limitEntryInWords(each, plant))
          .join('; '),
      ]),
    },
    notes:
      quote === undefined
        ? []
        : [
            `At most ${formatFigure(quote.largest.volume, 1)} ${units.mass} a month can be served: ${
              quote.largest.limits
                .slice(0, 4)
                .map((each) => limitEntryInWords(each, plant))
                .join('; ') || 'all that can come in'
            }.`,
            ...(shown.length < ladder.length
              ? [`${shown.length} of ${ladder.length} breaks are shown; the JSON has them all.`]
              : []),
          ],
  };
}

function bridgeSection({ displaced }: JudgedDocument): Section {
  const bridge = displaced?.bridge;
  const table: Table = {
    columns: [
      { head: 'effect', kind: 'text' },
      { head: 'of', kind: 'text' },
      { head: 'amount', kind: 'money' },
    ],
    rows:
      bridge === undefined
        ? []
        : [
            ['margin without the offer', '', bridge.from],
            ...bridge.effects.flatMap(({ effect, amount, parts }) =>
              parts.length === 0
                ? []
                : [
                    [effect, '', amount],
                    ...parts
                      .slice(0, MOST_PARTS)
                      .map((part) => [
                        '',
                        part.line === part.id ? part.line : `${part.line} ${part.id}`,
                        part.amount,
                      ]),
                  ],
            ),
            ['margin with the offer', '', bridge.to],
          ],
  };
  const definitions = displaced?.definitions ?? {};
  return {
    title: 'Bridge from one margin to the other',
    table,
    totals: 1,
    notes: Object.entries(definitions).map(([effect, meaning]) => `${effect}: ${meaning}.`),
  };
}

const MOST_PARTS = 5;

function movesSection({ displaced }: JudgedDocument, plant: Plant): Section {
  return {
    title: 'What it displaces',
    table: {
      columns: [
        { head: 'what', kind: 'text' },
        { head: 'without', kind: 'count' },
        { head: 'with', kind: 'count' },
      ],
      rows: [
        ...(displaced?.moves ?? []).map((move) => [moveNoun(move, plant), move.before, move.after]),
        ...(displaced?.machines ?? []).map(({ machine, before, after }) => [
          `hours of ${machine}`,
          before,
          after,
        ]),
      ],
    },
  };
}

function monthsSection({ displaced }: JudgedDocument, plant: Plant): Section {
  return {
    title: 'Month by month',
    table: {
      columns: [
        { head: 'month', kind: 'text' },
        { head: 'what moves', kind: 'text' },
      ],
      rows: (displaced?.months ?? []).map(({ month, moves }) => [
        month,
        movesInWords(moves.slice(0, 3), plant),
      ]),
    },
  };
}

function termsSection({ terms }: JudgedDocument): Section {
  const named = ({ change, measure }: TermWorth) =>
    measure === undefined ? change : `${change}: ${measure}`;
  return {
    title: 'What each term is worth',
    table: {
      columns: [
        { head: 'changed to', kind: 'text' },
        { head: 'worth more, present value', kind: 'money' },
      ],
      rows: terms.map((term) => [named(term), term.worth]),
    },
  };
}

function uncertainSection({ uncertain }: JudgedDocument): Section {
  const rows =
    uncertain === undefined || !('remade' in uncertain)
      ? []
      : (['kept', 'remade'] as const).flatMap((key) => {
          const { distribution, regret } = uncertain[key];
          if (distribution === undefined) return [];
          const at = (share: number) => distribution.quantiles.find((each) => each.share === share)?.value;
          return [[WORDS[key], distribution.mean, at(0.05), at(0.5), at(0.95), regret]];
        });
  return {
    title: 'Gain when uncertain numbers are drawn',
    table: {
      columns: [
        { head: 'plans', kind: 'text' },
        { head: 'mean', kind: 'money' },
        { head: '5 %', kind: 'money' },
        { head: 'median', kind: 'money' },
        { head: '95 %', kind: 'money' },
        { head: 'chance of regret', kind: 'share' },
      ],
      rows,
    },
  };
}

const WORDS = { kept: 'kept as made', remade: 'made anew' } as const;
