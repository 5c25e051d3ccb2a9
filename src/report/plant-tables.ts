import type { Plant } from '../plant/plant.js';
import { formatFigure, type ReportUnits } from './figure.js';
import { sumOf } from './sum.js';

/** A table of one noun of the scenario, as it is edited: a column for each member that most entries have. */
export interface PlantTable {
  /** The list's key in the scenario, `windows` for those of `operation`. */
  readonly key: string;
  readonly title: string;
  readonly columns: readonly PlantColumn[];
  readonly computed: readonly ComputedColumn[];
}

export interface PlantColumn {
  readonly path: string;
  readonly head: string;
  /** '' where it has none. */
  readonly unit: string;
  readonly kind: 'text' | 'figure' | 'choice';
  readonly choices?: readonly string[];
}

/** What follows from the members: shown, never written. */
export interface ComputedColumn {
  readonly head: string;
  readonly unit: string;
  /** By id; the first month's where months differ. */
  readonly of: (plant: Plant, id: string) => string;
}

const STAFFING = ['hourly', 'by the shift', 'by the month'];

/** The tables of a plant, in the order in which tires go through it. */
export function plantTables({ mass, currency }: ReportUnits): PlantTable[] {
  const rate = `${currency}/${mass}`;
  const text = (path: string, head: string): PlantColumn => ({ path, head, unit: '', kind: 'text' });
  const figure = (path: string, head: string, unit = ''): PlantColumn => ({
    path,
    head,
    unit,
    kind: 'figure',
  });
  return [
    {
      key: 'feeds',
      title: 'Feeds',
      columns: [
        text('name', 'feed'),
        text('material', 'material'),
        figure('tippingFee', 'tipping fee', `${rate}, or n / tire`),
        figure('haulage', 'haulage', rate),
        figure('committed', 'committed', `${mass} a month`),
        figure('available', 'available', `${mass} a month`),
        figure('paymentDays', 'paid after', 'days'),
      ],
      computed: [
        {
          head: 'fee by mass',
          unit: rate,
          of: ({ feeds }, id) => first(feeds.find((each) => each.id === id)?.fee, 2),
        },
      ],
    },
    {
      key: 'machines',
      title: 'Machines',
      columns: [
        text('name', 'machine'),
        figure('count', 'count'),
        figure('availability', 'availability', 'share'),
        figure('maintenanceHours', 'maintenance', 'h a month'),
        text('crew', 'crew'),
      ],
      computed: [
        {
          head: 'hours it has',
          unit: 'h a month',
          of: ({ machines }, id) => {
            const machine = machines.find((each) => each.id === id);
            return machine === undefined
              ? ''
              : formatFigure(
                  sumOf(machine.available, ([hours]) => hours),
                  1,
                );
          },
        },
      ],
    },
    {
      key: 'crews',
      title: 'Crews',
      columns: [
        text('name', 'crew'),
        figure('people', 'people'),
        figure('wage', 'wage', `${currency} a person-hour`),
        { ...text('staffing', 'paid'), kind: 'choice', choices: STAFFING },
      ],
      computed: [],
    },
    {
      key: 'steps',
      title: 'Steps',
      columns: [
        text('name', 'step'),
        text('machine', 'machine'),
        text('input', 'input'),
        figure('throughput', 'throughput', `${mass}/h, a pass`),
        figure('energy', 'energy', `kWh/${mass}, a pass`),
        figure('wear', 'wear', `${rate}, a pass`),
      ],
      computed: [
        {
          head: 'net throughput',
          unit: `${mass}/h`,
          of: ({ steps }, id) => first(steps.find((each) => each.id === id)?.throughput, 2),
        },
        {
          head: 'passes',
          unit: '',
          of: ({ steps }, id) => first([steps.find((each) => each.id === id)?.passes ?? 1], 2),
        },
        { head: 'makes', unit: '% of input', of: yieldsOf },
      ],
    },
    {
      key: 'outlets',
      title: 'Outlets',
      columns: [
        text('name', 'outlet'),
        text('material', 'material'),
        figure('price', 'price', rate),
        figure('limit', 'limit', `${mass} a month`),
        figure('freight', 'freight', rate),
        figure('packing', 'packing', rate),
        figure('paymentDays', 'paid after', 'days'),
      ],
      computed: [
        {
          head: 'pays',
          unit: `${rate}, by tier`,
          of: ({ outlets }, id) =>
            (outlets.find((each) => each.id === id)?.tiers ?? [])
              .map(({ price }) => first(price, 2))
              .join('; '),
        },
      ],
    },
    {
      key: 'contracts',
      title: 'Contracts',
      columns: [
        text('name', 'contract'),
        text('buyer', 'buyer'),
        text('from', 'from'),
        text('to', 'to'),
        figure('monthly/min', 'at least', `${mass} a month`),
        figure('monthly/max', 'at most', `${mass} a month`),
        figure('shortfall/charge', 'charge if missed', rate),
        figure('freight', 'freight', rate),
        figure('packing', 'packing', rate),
        figure('paymentDays', 'paid after', 'days'),
      ],
      computed: [
        {
          head: 'price now',
          unit: rate,
          of: ({ contracts }, id) =>
            Object.values(contracts.find((each) => each.id === id)?.price ?? {})
              .map((price) => first(price, 2))
              .join('; '),
        },
      ],
    },
    {
      key: 'disposals',
      title: 'Disposals',
      columns: [
        text('name', 'disposal'),
        figure('charge', 'charge', rate),
        figure('haulage', 'haulage', rate),
        figure('limit', 'limit', `${mass} a month`),
      ],
      computed: [],
    },
    {
      key: 'windows',
      title: 'Windows of the week',
      columns: [
        text('name', 'window'),
        text('from', 'from'),
        text('to', 'to'),
        figure('powerPrice', 'power', `${currency}/kWh`),
        figure('wageFactor', 'wages', 'times'),
      ],
      computed: [
        {
          head: 'hours',
          unit: 'h a month',
          of: ({ windows }, id) => first(windows.find((each) => each.id === id)?.hours, 1),
        },
      ],
    },
    {
      key: 'materials',
      title: 'Materials and stocks',
      columns: [
        text('name', 'material'),
        text('form', 'form'),
        figure('stock/opening', 'opening stock', mass),
        figure('stock/min', 'at least', mass),
        figure('stock/capacity', 'at most', mass),
        figure('stock/closing/min', 'at the end, at least', mass),
        figure('stock/holdingCost', 'holding', `${rate} a month`),
      ],
      computed: [],
    },
    {
      key: 'stores',
      title: 'Stores',
      columns: [text('name', 'store'), figure('capacity', 'room', mass)],
      computed: [],
    },
    {
      key: 'fixedCosts',
      title: 'Fixed costs',
      columns: [text('name', 'what'), figure('perMonth', 'a month', currency)],
      computed: [],
    },
  ];
}

/**
 * A member as a cell holds it: figures as they are written, a rate as '1.6 / tire', a series with semicolons. What
 * is no such thing stays out of the cell.
 *
 * @example cellText({ amount: 1.6, per: 'tire' }) // '1.6 / tire'
 */
export function cellText(value: unknown): string | undefined {
  if (value === undefined) return '';
  if (typeof value === 'number' || typeof value === 'string') return String(value);
  if (Array.isArray(value)) {
    const parts = value.map(cellText);
    return parts.some((part) => part === undefined || part === '') ? undefined : parts.join('; ');
  }
  const { amount, per } = (value ?? {}) as { readonly amount?: unknown; readonly per?: unknown };
  return typeof amount === 'number' && typeof per === 'string' ? `${amount} / ${per}` : undefined;
}

/** The entries of a table, as they stand in the scenario. */
export function plantEntries(
  document: Readonly<Record<string, unknown>>,
  key: string,
): Readonly<Record<string, unknown>>[] {
  const { operation } = document as { readonly operation?: Readonly<Record<string, unknown>> };
  const list = key === 'windows' ? operation?.windows : document[key];
  return Array.isArray(list) ? list : [];
}

/** Where a table's list stands. */
export function plantPointer(key: string): string {
  return key === 'windows' ? '/operation/windows' : `/${key}`;
}

/** The member at a path of an entry. */
export function memberAt(entry: unknown, path: string): unknown {
  return path
    .split('/')
    .reduce<unknown>((at, key) => (at as Record<string, unknown> | undefined)?.[key], entry);
}

function first(series: readonly number[] | undefined, digits: number): string {
  const [value] = series ?? [];
  return value === undefined || !Number.isFinite(value) ? '' : formatFigure(value, digits);
}

function yieldsOf({ steps, materials }: Plant, id: string): string {
  const names = new Map(materials.map((material) => [material.id, material.name]));
  return (steps.find((each) => each.id === id)?.yields ?? [])
    .filter(({ share }) => share > 0)
    .map(({ material, share }) => `${names.get(material)} ${formatFigure(share * 100, 1)}`)
    .join('; ');
}
