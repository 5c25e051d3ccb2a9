import type { FeeAnswer, FeedFee } from '../../analysis/fee/fee-answer.js';
import type { Plant } from '../../plant/plant.js';
import { curveChart } from '../charts/curve-chart.js';
import { formatFigure, formatMoney } from '../figure.js';
import type { Table } from '../table.js';
import { plain } from './plain.js';
import type { QuestionReport } from './question-report.js';

export const FEE_FORMAT = 'cutpoint-fee/1';

/** The best tipping fees in every form. `bases` says what each feed's fee is written in, such as 'tire'. */
export function feeReport(
  plant: Plant,
  answer: FeeAnswer,
  bases: Readonly<Record<string, string>>,
): QuestionReport {
  const { units, title } = plant;
  const { currency } = units;
  const unitOf = ({ feed }: FeedFee) => `${currency}/${bases[feed] ?? units.mass}`;
  return {
    document: { format: FEE_FORMAT, title, units, ...answer },
    units,
    headline: [
      `${title}: the best fees bring a present value of ${formatMoney(answer.value, currency)}${
        answer.own === undefined
          ? ''
          : `, against ${formatMoney(answer.own, currency)} at the fees as they are`
      }. ${proofInWords(answer, currency)}`,
      ...answer.feeds.map((feed) => feedInWords(feed, unitOf(feed), plant)),
      ...(answer.status === 'partial'
        ? [
            `Stopped or cut short: these are the best fees found so far${answer.bound === undefined ? '' : '; what others could still earn more is what lies up to the bound'}.`,
          ]
        : []),
    ],
    sections: answer.feeds.map((feed) => ({
      title: `Fee of ${nameOf(feed, plant)}`,
      table: curveTable(feed, unitOf(feed)),
    })),
    tables: [
      { name: 'fees', table: feesTable(answer, unitOf) },
      ...answer.feeds.map((feed) => ({ name: `fee-${feed.feed}`, table: curveTable(feed, unitOf(feed)) })),
    ],
    charts: answer.feeds.map((feed) => ({
      name: `fee-${feed.feed}`,
      svg: feeChart(feed, unitOf(feed), plant),
    })),
  };
}

function proofInWords({ bound, isBoundInParts }: FeeAnswer, currency: string): string {
  if (bound === undefined) return 'What other fees could bring is not known yet.';
  const proof = `No fees in the ranges bring more than ${formatMoney(bound, currency)}: proved`;
  return isBoundInParts === true
    ? `${proof}, with whole shifts and windows taken in parts, which can only bring more.`
    : `${proof}.`;
}

const STANDINGS: Readonly<Record<FeedFee['standing'], string>> = {
  inside: 'It lies inside the range.',
  'lower end': 'It is the lower end of the range: a lower fee may bring more still.',
  'upper end': 'It is the upper end of the range: a higher fee may bring more still.',
  'no response':
    'It is the upper bound of the range, and only that limits it: the feed has no response, so that no tonnes go away whatever is asked.',
  inelastic:
    'It is the upper bound of the range, and only that limits it: income rises with the fee without end, since the tonnes that go away weigh less than what the others pay.',
  'committed pay':
    'It is the upper bound of the range, and only that limits it: the committed tonnes pay whatever is asked, so that income rises with the fee in the end.',
  listed: "It is one of the fees of the supplier's table.",
};

function feedInWords(feed: FeedFee, unit: string, plant: Plant): string {
  const { units } = plant;
  const { decline, worth, feeByMass } = feed;
  const perMass = `${units.currency}/${units.mass}`;
  const by =
    decline?.some === undefined
      ? ''
      : ` Below ${plain(decline.some)} ${perMass}, with the same tonnes on offer, the plant is better off declining some of them`;
  const all =
    decline?.all === undefined
      ? ''
      : `, and below ${plain(decline.all)} ${perMass} all that is not committed`;
  const gate =
    worth.length === 0
      ? ''
      : ` A tonne at the gate is worth ${plain(worth[0])} ${perMass} in the first month, its fee apart.`;
  return `${nameOf(feed, plant)}: ${plain(feed.fee)} ${unit} (${plain(feeByMass)} ${perMass}), ${formatFigure(feed.tonnes, 1)} ${units.mass}, fee income ${formatMoney(feed.income, units.currency)}. ${STANDINGS[feed.standing]}${by}${all}${by === '' ? '' : '.'}${gate}`;
}

function nameOf({ feed }: FeedFee, { feeds }: Plant): string {
  return feeds.find(({ id }) => id === feed)?.name ?? feed;
}

function feesTable({ feeds }: FeeAnswer, unitOf: (feed: FeedFee) => string): Table {
  return {
    columns: [
      { head: 'feed', kind: 'text' },
      { head: 'fee', kind: 'count' },
      { head: 'unit', kind: 'text' },
      { head: 'fee by mass', kind: 'money by mass' },
      { head: 'received', kind: 'mass' },
      { head: 'fee income', kind: 'money' },
      { head: 'standing', kind: 'text' },
      { head: 'some declined below', kind: 'money by mass' },
      { head: 'all declined below', kind: 'money by mass' },
    ],
    rows: feeds.map((feed) => [
      feed.feed,
      feed.fee,
      unitOf(feed),
      feed.feeByMass,
      feed.tonnes,
      feed.income,
      feed.standing,
      feed.decline?.some,
      feed.decline?.all,
    ]),
  };
}

function curveTable({ curve }: FeedFee, unit: string): Table {
  return {
    columns: [
      { head: `fee (${unit})`, kind: 'text' },
      { head: 'present value', kind: 'money' },
      { head: 'received', kind: 'mass' },
      { head: 'fee income', kind: 'money' },
    ],
    rows: curve.map(({ fee, value, tonnes, income }) => [plain(fee), value, tonnes, income]),
  };
}

function feeChart(feed: FeedFee, unit: string, plant: Plant): string {
  const { title, units } = plant;
  const points = feed.curve.flatMap(({ fee, value }) => (value === undefined ? [] : [{ x: fee, y: value }]));
  const income = feed.curve.flatMap(({ fee, income: y }) => (y === undefined ? [] : [{ x: fee, y }]));
  return curveChart({
    title: `${title}: present value and fee income over the tipping fee of ${nameOf(feed, plant)}`,
    description: `The best fee is ${plain(feed.fee)} ${unit}. ${STANDINGS[feed.standing]}`,
    xTitle: `Tipping fee (${unit})`,
    yTitle: `Present value and fee income (${units.currency})`,
    lines: [
      { name: 'present value', points },
      { name: 'fee income', points: income },
    ],
    guides: [{ x: feed.fee, label: `best: ${plain(feed.fee)}` }],
  });
}
