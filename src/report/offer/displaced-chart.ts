import { MOST_LAYERS, stackedChart } from '../charts/stacked-chart.js';
import { formatFigure } from '../figure.js';
import type { Names } from '../names.js';
import type { JudgedDocument } from '../offer-document.js';
import type { Section } from '../section.js';
import { sumOf } from '../sum.js';
import type { Table } from '../table.js';
import { drawnLadder } from './quote-chart.js';

type Sources = NonNullable<JudgedDocument['displacedByVolume']>;
type Source = Sources['sources'][number];

/** What one source gives to the offer at each volume: what it has less, or for feeds more, than without the offer. */
interface Giver {
  readonly name: string;
  readonly given: readonly number[];
}

export const SOURCES_TITLE = 'Where the tonnes of a firm volume come from, over the horizon';

/** Columns of volumes in the table. */
const MOST_VOLUMES = 5;

/**
 * Where the tonnes of the offer come from, stacked by outlet, on the axis of the quotes. Undefined where it is not
 * known.
 */
export function displacedChart(document: JudgedDocument): string | undefined {
  const { displacedByVolume, units, offer } = document;
  const places = drawnPlaces(document);
  if (displacedByVolume === undefined || places.length < 2) return undefined;
  const givers = giversOf(displacedByVolume, document.names).map(({ name, given }) => ({
    name,
    values: places.map((place) => given[place]),
  }));
  const [most, next] = givers;
  const others = givers.slice(MOST_LAYERS - 1);
  const layers =
    givers.length <= MOST_LAYERS
      ? givers
      : [
          ...givers.slice(0, MOST_LAYERS - 1),
          { name: `${others.length} others together`, values: added(others) },
        ];
  const title = `${offer.name}: the ${units.mass}s it takes from other business${
    most === undefined ? '' : `, most from ${most.name}${next === undefined ? '' : `, then ${next.name}`}`
  }`;
  return stackedChart({
    title,
    description:
      'By the firm monthly volume, over the horizon: what outlets, contracts, disposals and stocks have less and feeds bring more than without the offer. Below 0: what gets more by it. The table holds the figures.',
    xTitle: `Firm volume (${units.mass} a month)`,
    yTitle: `Given over the horizon (${units.mass})`,
    xs: places.map((place) => displacedByVolume.volumes[place]),
    layers,
  });
}

/** The same as tables; none where it is not known. */
export function displacedSection({ displacedByVolume, names, units }: JudgedDocument): Section[] {
  if (displacedByVolume === undefined) return [];
  const { volumes, delivered } = displacedByVolume;
  const places = spreadPlaces(volumes.length);
  return [
    {
      title: SOURCES_TITLE,
      table: {
        columns: [
          { head: 'from', kind: 'text' },
          ...places.map((at) => ({ head: `at ${formatFigure(volumes[at], 1)}`, kind: 'mass' }) as const),
        ],
        rows: [
          ...giversOf(displacedByVolume, names).map(({ name, given }) => [
            name,
            ...places.map((at) => given[at]),
          ]),
          ['delivered on the offer', ...places.map((at) => delivered[at])],
        ],
      },
      totals: 1,
      notes: [
        `At firm volumes of so much ${units.mass} a month. Below 0: what has more with the offer than without it.`,
      ],
    },
  ];
}

/** The same at every volume, to take along. */
export function displacedTable({ displacedByVolume, names }: JudgedDocument): Table | undefined {
  if (displacedByVolume === undefined) return undefined;
  const { volumes, delivered } = displacedByVolume;
  return {
    columns: [
      { head: 'firm volume a month', kind: 'mass' },
      { head: 'from', kind: 'text' },
      { head: 'given over the horizon', kind: 'mass' },
    ],
    rows: volumes.flatMap((volume, place) => [
      ...giversOf(displacedByVolume, names).map(({ name, given }) => [volume, name, given[place]]),
      [volume, 'delivered on the offer', delivered[place]],
    ]),
  };
}

function giversOf({ sources }: Sources, names: Names): Giver[] {
  return sources.map((source) => ({
    name: nameOf(source, names),
    given: source.change.map((change) => (source.kind === 'receive' ? change : 0 - change)),
  }));
}

function nameOf({ kind, id }: Source, names: Names): string {
  switch (kind) {
    case 'sell':
      return names.outlets[id] ?? id;
    case 'deliver':
      return `${names.contracts[id] ?? id}, contract`;
    case 'dispose':
      return `less to ${names.disposals[id] ?? id}`;
    case 'stock':
      return `stock of ${names.materials[id] ?? id}`;
    case 'receive':
      return `more from ${names.feeds[id] ?? id}`;
  }
}

/** Places of the volumes that the chart of quotes shows too. */
function drawnPlaces(document: JudgedDocument): number[] {
  const { volumes = [] } = document.displacedByVolume ?? {};
  const last = drawnLadder(document).drawn.at(-1)?.monthlyMin ?? Number.POSITIVE_INFINITY;
  return volumes.flatMap((volume, place) => (volume <= last ? [place] : []));
}

/** A few places of a list, evenly spread, the last among them, the first not. */
function spreadPlaces(length: number): number[] {
  const count = Math.min(MOST_VOLUMES, length - 1);
  return Array.from({ length: count }, (_, i) => Math.round(((i + 1) * (length - 1)) / count));
}

function added(layers: readonly { readonly values: readonly number[] }[]): number[] {
  return layers[0].values.map((_, i) => sumOf(layers, ({ values }) => values[i]));
}
