import type { Rate } from '../../quantity/rate.js';
import type { Draft, Located } from '../draft.js';
import type { Series } from '../schema/figures.js';
import type { Contract } from '../schema/scenario.js';
import { listOf } from '../series.js';

/** A rate or a series of rates, and the materials whose figures its unit may need. */
export interface RateUse extends Located<Series<Rate>> {
  readonly materials: readonly string[];
}

/** Every series of plain numbers in the draft. */
export function numberSeries(draft: Draft): Located<Series<unknown>>[] {
  const { windows, materials, feeds, crews, machines, steps, outlets, contracts, offers, disposals } =
    draft.fragments;
  const { fixedCosts } = draft.fragments;
  return [
    ...(draft.demand === undefined ? [] : under(draft.demand, ['charge'])),
    ...windows.flatMap((window) => under(window, ['powerPrice'])),
    ...materials.flatMap(({ value, pointer }) =>
      under({ value: value.stock, pointer: `${pointer}/stock` }, ['capacity', 'min']),
    ),
    ...feeds.flatMap((feed) => under(feed, ['committed', 'available'])),
    ...crews.flatMap((crew) => under(crew, ['wage'])),
    ...machines.flatMap((machine) => under(machine, ['availability', 'maintenanceHours'])),
    ...steps.flatMap((step) => [
      ...under(step, ['throughput', 'energy']),
      ...under({ value: step.value.circuit, pointer: `${step.pointer}/circuit` }, ['passThroughput']),
    ]),
    ...outlets.flatMap((outlet) => [
      ...under(outlet, ['limit']),
      ...(outlet.value.tiers ?? []).flatMap((tier, i) =>
        under({ value: tier, pointer: `${outlet.pointer}/tiers/${i}` }, ['upTo']),
      ),
    ]),
    ...[...contracts, ...offers].flatMap(({ value, pointer }) => [
      ...under({ value: value.monthly, pointer: `${pointer}/monthly` }, ['min', 'max']),
      ...under({ value: value.call, pointer: `${pointer}/call` }, ['expected']),
    ]),
    ...disposals.flatMap((disposal) => under(disposal, ['limit'])),
    ...fixedCosts.flatMap((cost) => under(cost, ['perMonth'])),
  ];
}

/** Every rate and series of rates in the draft, with the materials that it is a rate of. */
export function rateUses(draft: Draft): RateUse[] {
  const { materials, feeds, steps, outlets, indices, contracts, offers, disposals } = draft.fragments;
  const agreements = [...contracts, ...offers];
  return [
    ...materials.flatMap(({ value, pointer }) => {
      const stock = { value: value.stock, pointer: `${pointer}/stock` };
      const closing = { value: value.stock?.closing, pointer: `${pointer}/stock/closing` };
      return of([value.id], [...under(stock, ['holdingCost']), ...under(closing, ['value'])]);
    }),
    ...feeds.flatMap((feed) =>
      of(
        [feed.value.material],
        [...under(feed, ['tippingFee', 'committedFee', 'haulage']), ...responseRates(feed)],
      ),
    ),
    ...steps.flatMap((step) => of([step.value.input], under(step, ['wear']))),
    ...outlets.flatMap((outlet) =>
      of(
        [outlet.value.material],
        [
          ...under(outlet, ['price', 'freight', 'packing']),
          ...(outlet.value.tiers ?? []).flatMap((tier, i) =>
            under({ value: tier, pointer: `${outlet.pointer}/tiers/${i}` }, ['price']),
          ),
        ],
      ),
    ),
    ...indices.flatMap((index) => {
      const users = agreements.filter(({ value }) => formulaOf(value.price)?.index === index.value.id);
      return of(
        users.flatMap(({ value }) => value.materials ?? []),
        under(index, ['base', 'values']),
      );
    }),
    ...agreements.flatMap((contract) => contractRates(contract)),
    ...disposals.flatMap((disposal) =>
      of(disposal.value.materials ?? [], under(disposal, ['charge', 'haulage'])),
    ),
  ];
}

type Price = Contract['price'];
export type Formula = Extract<Price, { readonly index: string }>;

/** The index formula of a price, if it is one. */
export function formulaOf(price: Price | undefined): Formula | undefined {
  return typeof price === 'object' && 'index' in price ? price : undefined;
}

/** The prices by material of a price that has them, those of a formula's base too. */
export function byMaterialOf(
  contract: Located<{ readonly price?: Price }>,
): Located<Readonly<Record<string, Series<Rate>>>> | undefined {
  const { plain, pointer } = plainPrice(contract);
  return typeof plain === 'object' && 'byMaterial' in plain
    ? { value: plain.byMaterial, pointer: `${pointer}/byMaterial` }
    : undefined;
}

function plainPrice(contract: Located<{ readonly price?: Price }>) {
  const { price } = contract.value;
  const formula = formulaOf(price);
  const pointer = `${contract.pointer}/price`;
  return formula === undefined
    ? { plain: price as Exclude<Price, Formula> | undefined, pointer }
    : { plain: formula.base, pointer: `${pointer}/base` };
}

function contractRates(contract: Located<Partial<Contract>>): RateUse[] {
  const { value, pointer } = contract;
  const materials = value.materials ?? [];
  const formula = formulaOf(value.price);
  const { plain, pointer: pricePointer } = plainPrice(contract);
  const prices = byMaterialOf(contract);
  return [
    ...(prices === undefined
      ? of(materials, plain === undefined ? [] : [{ value: plain as Series<Rate>, pointer: pricePointer }])
      : Object.entries(prices.value).map(([material, series]) => ({
          value: series,
          pointer: `${prices.pointer}/${material}`,
          materials: [material],
        }))),
    ...of(materials, [
      ...under({ value: formula, pointer: `${pointer}/price` }, ['floor', 'ceiling']),
      ...under({ value: value.shortfall, pointer: `${pointer}/shortfall` }, ['charge', 'termCharge']),
      ...under(contract, ['freight', 'packing']),
    ]),
  ];
}

function responseRates({ value, pointer }: Draft['fragments']['feeds'][number]): Located<Series<Rate>>[] {
  const { response } = value;
  if (response === undefined) return [];
  if (!Array.isArray(response)) return [{ value: response.at, pointer: `${pointer}/response/at` }];
  return response.map(({ fee }, i) => ({ value: fee, pointer: `${pointer}/response/${i}/fee` }));
}

/** The values at some keys of a located object, those that are there. */
function under<T extends object, K extends keyof T & string>(
  { value, pointer }: Located<T | undefined>,
  keys: readonly K[],
): Located<NonNullable<T[K]>>[] {
  if (value === undefined) return [];
  return keys.flatMap((key) => {
    const inner = value[key];
    return inner === undefined || inner === null ? [] : [{ value: inner, pointer: `${pointer}/${key}` }];
  });
}

function of(materials: readonly (string | undefined)[], rates: readonly Located<Series<Rate>>[]): RateUse[] {
  const named = materials.filter((material) => material !== undefined);
  return rates.map((rate) => ({ ...rate, materials: [...new Set(named)] }));
}

/** Each value of a series with its own pointer. */
export function valuesIn<T>({ value, pointer }: Located<Series<T>>): Located<T>[] {
  const list = listOf(value);
  if (list === undefined) return [{ value: value as T, pointer }];
  const at = list.start === undefined ? pointer : `${pointer}/values`;
  return list.values.map((item, t) => ({ value: item, pointer: `${at}/${t}` }));
}
