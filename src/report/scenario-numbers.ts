import type { ReportUnits } from './figure.js';
import { parameterWords } from './finance/parameter-words.js';

/** A number of a scenario by a plain name. */
export interface ScenarioNumber {
  /** JSON Pointer with ids, to a number, a rate, or the whole of a series. */
  readonly pointer: string;
  /** What it belongs to, such as 'Feeds'. */
  readonly group: string;
  /** @example 'Tire workshops: tipping fee' */
  readonly name: string;
  /** '' where it has none. */
  readonly unit: string;
  /** Of a series the first. */
  readonly value: number;
  readonly isSeries: boolean;
}

type Json = unknown;
type Members = Readonly<Record<string, Json>>;

const GROUPS: Readonly<Record<string, string>> = {
  feeds: 'Feeds',
  outlets: 'Outlets',
  contracts: 'Contracts',
  offers: 'Offers',
  disposals: 'Disposals',
  machines: 'Machines',
  crews: 'Crews',
  steps: 'Steps',
  windows: 'Windows of the week',
  demand: 'Demand charge',
  materials: 'Materials',
  stores: 'Stores',
  fixedCosts: 'Fixed costs',
};

/** Members that are figures but nothing that one tries out. */
const LEFT_OUT = ['uncertainty', 'horizon', 'assay'];

/** All numbers of a scenario's document that can be changed one by one, in the order of the groups. */
export function scenarioNumbers(document: Members, units: ReportUnits): ScenarioNumber[] {
  const operation = members(document.operation);
  const lists: Members = { ...document, windows: operation.windows };
  const found = Object.entries(GROUPS).flatMap(([key, group]): ScenarioNumber[] => {
    if (key === 'demand') return numbersIn(operation.demand, '/operation/demand', '', group);
    const base = key === 'windows' ? '/operation/windows' : `/${key}`;
    return list(lists[key]).flatMap((item, i) => {
      const { id, name = id } = members(item);
      return numbersIn(item, `${base}/${id ?? i}`, `${String(name ?? `${group} ${i + 1}`)}: `, group);
    });
  });
  const rate = document.discountRate;
  const all: ScenarioNumber[] =
    typeof rate === 'number'
      ? [
          ...found,
          {
            pointer: '/discountRate',
            group: 'Money',
            name: 'discount rate',
            unit: '',
            value: rate,
            isSeries: false,
          },
        ]
      : found;
  return all.map((each) => ({ ...each, unit: unitOf(document, each.pointer, units) }));
}

function numbersIn(
  value: Json,
  pointer: string,
  name: string,
  group: string,
  words: readonly string[] = [],
): ScenarioNumber[] {
  const said = `${name}${words.join(' ')}`.trim();
  const figure = figureOf(value);
  if (figure !== undefined) return [{ pointer, group, name: said, unit: '', value: figure, isSeries: false }];
  const series = seriesOf(value);
  if (series !== undefined) return [{ pointer, group, name: said, unit: '', value: series, isSeries: true }];
  if (Array.isArray(value)) {
    return value.flatMap((entry, i) => {
      if (typeof entry !== 'object') return [];
      const { id = i } = members(entry);
      return numbersIn(entry, `${pointer}/${String(id)}`, name, group, [
        ...words.slice(0, -1),
        `${singular(words.at(-1))} ${i + 1}`,
      ]);
    });
  }
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => {
    if (LEFT_OUT.includes(key)) return [];
    return numbersIn(part, `${pointer}/${escapedKey(key)}`, name, group, [...words, inWords(key)]);
  });
}

/** The first figure of a series of numbers or rates. */
function seriesOf(value: Json): number | undefined {
  const values = Array.isArray(value) ? value : members(value).values;
  if (!Array.isArray(values)) return undefined;
  return figureOf(values[0]);
}

/** A number, or the amount of a rate. */
function figureOf(value: Json): number | undefined {
  if (typeof value === 'number') return value;
  const { amount, per } = members(value);
  return typeof amount === 'number' && per !== undefined ? amount : undefined;
}

function escapedKey(key: string): string {
  return key.replaceAll('~', '~0').replaceAll('/', '~1');
}

function unitOf(document: Members, pointer: string, units: ReportUnits): string {
  return parameterWords(document, { kind: 'value', pointers: [pointer] }, units).unit;
}

/** @example inWords('tippingFee') // 'tipping fee' */
function inWords(key: string): string {
  return key.replace(
    /([a-z])([A-Z])/g,
    (_, before: string, after: string) => `${before} ${after.toLowerCase()}`,
  );
}

function singular(word = ''): string {
  return word.replace(/s$/, '');
}

function members(value: Json): Members {
  return typeof value === 'object' && value !== null ? (value as Members) : {};
}

function list(value: Json): readonly Json[] {
  return Array.isArray(value) ? value : [];
}
