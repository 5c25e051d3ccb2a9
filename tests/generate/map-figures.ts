import type { Rate } from '../../src/scenario/schema/figures.js';
import type { Contract, Scenario } from '../../src/scenario/schema/scenario.js';

/** What to do with each kind of figure; a kind that is left out stays as it is. */
export interface FigureMap {
  /** Mass, and mass by machine-hour. */
  readonly mass?: (mass: number) => number;
  /** Money by an amount of material. */
  readonly rate?: (rate: Rate) => Rate;
  /** kWh by mass unit. */
  readonly energy?: (energy: number) => number;
  /** Money by anything else: by kWh, kW, person-hour, month. */
  readonly money?: (money: number) => number;
}

type Keys = Readonly<Record<string, keyof FigureMap>>;

const STOCK: Keys = { capacity: 'mass', min: 'mass', opening: 'mass', holdingCost: 'rate' };
const FEED: Keys = {
  tippingFee: 'rate',
  committedFee: 'rate',
  haulage: 'rate',
  committed: 'mass',
  available: 'mass',
};
const STEP: Keys = { throughput: 'mass', energy: 'energy', wear: 'rate' };
const OUTLET: Keys = { price: 'rate', limit: 'mass', freight: 'rate', packing: 'rate' };
const CONTRACT: Keys = { freight: 'rate', packing: 'rate' };
const DISPOSAL: Keys = { charge: 'rate', haulage: 'rate', limit: 'mass' };

/** The scenario with each of its figures mapped by kind, series figure by figure. */
export function mapFigures(scenario: Scenario, map: FigureMap): Scenario {
  const copy = structuredClone(scenario);
  for (const window of copy.operation.windows) apply(window, { powerPrice: 'money' }, map);
  if (copy.operation.demand) apply(copy.operation.demand, { charge: 'money' }, map);
  for (const { stock } of copy.materials) {
    if (stock) apply(stock, STOCK, map);
    if (stock?.closing) apply(stock.closing, { min: 'mass', value: 'rate' }, map);
  }
  for (const store of copy.stores ?? []) apply(store, { capacity: 'mass' }, map);
  for (const feed of copy.feeds) mapFeed(feed, map);
  for (const crew of copy.crews ?? []) apply(crew, { wage: 'money' }, map);
  for (const step of copy.steps) {
    apply(step, STEP, map);
    if (step.circuit) apply(step.circuit, { passThroughput: 'mass' }, map);
  }
  for (const outlet of copy.outlets ?? []) {
    apply(outlet, OUTLET, map);
    for (const tier of outlet.tiers ?? []) apply(tier, { upTo: 'mass', price: 'rate' }, map);
  }
  for (const index of copy.indices ?? []) {
    if (index.kind !== 'points') apply(index, { base: 'rate', values: 'rate' }, map);
  }
  for (const contract of [...(copy.contracts ?? []), ...(copy.offers ?? [])]) mapContract(contract, map);
  for (const disposal of copy.disposals ?? []) apply(disposal, DISPOSAL, map);
  for (const cost of copy.fixedCosts ?? []) apply(cost, { perMonth: 'money' }, map);
  return copy;
}

function mapFeed(feed: Scenario['feeds'][number], map: FigureMap): void {
  apply(feed, FEED, map);
  if (Array.isArray(feed.response)) {
    for (const entry of feed.response) apply(entry, { fee: 'rate', available: 'mass' }, map);
  } else if (feed.response) {
    apply(feed.response, { at: 'rate' }, map);
  }
}

function mapContract(contract: Contract, map: FigureMap): void {
  apply(contract, CONTRACT, map);
  if (contract.monthly) apply(contract.monthly, { min: 'mass', max: 'mass' }, map);
  if (contract.term) apply(contract.term, { min: 'mass', max: 'mass', delivered: 'mass' }, map);
  if (contract.shortfall) apply(contract.shortfall, { charge: 'rate', termCharge: 'rate' }, map);
  if (contract.call) apply(contract.call, { expected: 'mass' }, map);
  const { price } = contract;
  if (typeof price === 'object' && 'index' in price) {
    apply(price, { floor: 'rate', ceiling: 'rate' }, map);
    mapPlainPrice(price, 'base', map);
  } else {
    mapPlainPrice(contract, 'price', map);
  }
}

/** A rate, a series of rates, or one of these by material. */
function mapPlainPrice(owner: object, key: string, map: FigureMap): void {
  const price = (owner as Record<string, unknown>)[key];
  if (typeof price === 'object' && price !== null && 'byMaterial' in price) {
    const byMaterial = price.byMaterial as object;
    apply(byMaterial, Object.fromEntries(Object.keys(byMaterial).map((id) => [id, 'rate'])), map);
  } else {
    apply(owner, { [key]: 'rate' }, map);
  }
}

function apply(owner: object, kinds: Keys, map: FigureMap): void {
  const record = owner as Record<string, unknown>;
  for (const [key, kind] of Object.entries(kinds)) {
    const change = map[kind] as ((figure: unknown) => unknown) | undefined;
    if (change !== undefined && record[key] !== undefined) record[key] = inSeries(record[key], change);
  }
}

function inSeries(series: unknown, change: (figure: unknown) => unknown): unknown {
  if (Array.isArray(series)) return series.map(change);
  if (typeof series === 'object' && series !== null && 'values' in series) {
    return { ...series, values: (series.values as unknown[]).map(change) };
  }
  return change(series);
}
