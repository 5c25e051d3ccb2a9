import type { OfferSets, OpenFigure } from '../analysis/offer/offer-sets.js';
import type { Plant } from '../plant/plant.js';
import { formatFigure, formatMoney } from './figure.js';
import type { QuestionReport } from './finance/question-report.js';
import { withoutInfinities } from './finite.js';
import { namesOf } from './names.js';
import type { Table } from './table.js';

export const OFFER_SETS_FORMAT = 'cutpoint-offer-set/1';

/** Which of several offers to sign, in every form. */
export function offerSetsReport(plant: Plant, answer: OfferSets): QuestionReport {
  const { units } = plant;
  const tables = [
    { name: 'offer-sets', title: 'Sets', table: setsTable(plant, answer) },
    { name: 'offer-set-offers', title: 'Each offer', table: offersTable(plant, answer) },
  ];
  return {
    document: withoutInfinities({ format: OFFER_SETS_FORMAT, title: plant.title, units, ...answer }),
    units,
    headline: headlineOf(plant, answer),
    sections: tables.map(({ title, table }) => ({ title, table })),
    tables: tables.map(({ name, table }) => ({ name, table })),
    charts: [],
  };
}

function headlineOf(plant: Plant, { best, none, undecided, manner, counting, solves }: OfferSets): string[] {
  const { currency } = plant.units;
  const lines = [
    `Sign ${setInWords(plant, best)}${none === undefined ? '' : `: ${formatMoney(best.value - none, currency)} (present value) above signing nothing`}.`,
  ];
  if (undecided.length > 0) {
    const most = Math.max(...undecided.map(({ bound }) => bound - best.value));
    const named = undecided.slice(0, MOST_NAMED).map((set) => setInWords(plant, set));
    const more = undecided.length - named.length;
    lines.push(
      `Too close to call against ${named.join('; ')}${more > 0 ? ` and ${more} more sets` : ''}: by what the solves with whole numbers leave open, one of them may be worth up to ${formatMoney(most, currency)} more.`,
    );
  }
  if (counting === 'in parts') lines.push('Whole shifts and windows are counted in parts.');
  lines.push(`${wayInWords(manner, counting)}: ${solves} solves.`);
  return lines;
}

function wayInWords(manner: OfferSets['manner'], counting: OfferSets['counting']): string {
  if (manner === 'whole numbers') return 'The set was chosen by whole numbers';
  return counting === 'whole'
    ? 'All sets were tried with shifts in parts, the promising ones with whole shifts'
    : 'All sets were tried';
}

const MOST_NAMED = 3;

function setInWords(plant: Plant, { offers }: Pick<OfferSets['best'], 'offers'>): string {
  const { contracts } = namesOf(plant);
  const said = offers.map(({ offer, share }) => {
    const name = contracts[offer] ?? offer;
    return share === 1 ? name : `${name} (${formatFigure(share * 100, 1)} %)`;
  });
  return said.join(' and ') || 'none of them';
}

function setsTable(plant: Plant, { best, runnerUp, none }: OfferSets): Table {
  return {
    columns: [
      { head: 'sign', kind: 'text' },
      { head: 'present value', kind: 'money' },
      { head: 'less than the best', kind: 'money' },
    ],
    rows: [
      [setInWords(plant, best), best.value, 0],
      ...(runnerUp === undefined
        ? []
        : [[setInWords(plant, runnerUp), runnerUp.value, best.value - runnerUp.value]]),
      ...(none === undefined ? [] : [['none of them', none, best.value - none]]),
    ],
  };
}

function offersTable(plant: Plant, { losses, costs }: OfferSets): Table {
  const { contracts } = namesOf(plant);
  const isOpen = [...losses, ...costs].some(({ high }) => high !== undefined);
  const row = (offer: string, signed: string, figure: number | undefined, { low, high }: OpenFigure) => [
    contracts[offer] ?? offer,
    signed,
    figure,
    ...(isOpen ? [low ?? figure, high ?? figure] : []),
  ];
  return {
    columns: [
      { head: 'offer', kind: 'text' },
      { head: 'signed', kind: 'text' },
      { head: 'lost by deciding otherwise', kind: 'money' },
      ...(isOpen
        ? [
            { head: 'at least', kind: 'money' as const },
            { head: 'at most', kind: 'money' as const },
          ]
        : []),
    ],
    rows: [
      ...losses.map(({ offer, loss, ...open }) => row(offer, 'yes', loss, open)),
      ...costs.map(({ offer, cost, ...open }) => row(offer, 'no', cost, open)),
    ],
  };
}
