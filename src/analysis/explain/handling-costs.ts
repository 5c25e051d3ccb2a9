import { discountFactor } from '../../planning/discount.js';
import type { Formulation } from '../../planning/formulate.js';
import { downToNothing, type PricedNumber } from './priced-number.js';

/** Freight, packing, haulage, the holding and the value of stocks, and what missed tonnes cost. */
export function handlingCosts(formulation: Formulation): PricedNumber[] {
  return [
    ...outletCosts(formulation),
    ...contractCosts(formulation),
    ...haulage(formulation),
    ...stockCosts(formulation),
    ...shortfallCharges(formulation),
  ];
}

/** Of each month, −discount factor on each of its columns. */
function costOf(
  { plant }: Formulation,
  number: PricedNumber['number'],
  now: readonly number[],
  columnsOf: (month: number) => readonly (number | undefined)[],
): PricedNumber {
  return {
    number,
    unit: 'money by mass',
    now,
    columns: plant.months.map(({ index: month }) =>
      columnsOf(month).flatMap((column) =>
        column === undefined ? [] : [{ column, rate: -discountFactor(plant, month) }],
      ),
    ),
    ...downToNothing(now),
  };
}

function outletCosts(formulation: Formulation): PricedNumber[] {
  const { plant, columns } = formulation;
  return plant.outlets.flatMap((outlet, o) => {
    const sold = (month: number) => columns.sell[o].map((tier) => tier[month]);
    return [
      costOf(formulation, { kind: 'outletFreight', outlet: outlet.id }, outlet.freight, sold),
      costOf(formulation, { kind: 'outletPacking', outlet: outlet.id }, outlet.packing, sold),
    ];
  });
}

function contractCosts(formulation: Formulation): PricedNumber[] {
  const { plant, columns } = formulation;
  return plant.contracts.flatMap((contract, c) =>
    contract.materials.flatMap((material, m) => {
      const delivered = (month: number) =>
        contract.inForce[month] === 0 ? [] : [columns.deliver[c][m][month]];
      const key = { contract: contract.id, material };
      return [
        costOf(formulation, { kind: 'contractFreight', ...key }, contract.freight[material], delivered),
        costOf(formulation, { kind: 'contractPacking', ...key }, contract.packing[material], delivered),
      ];
    }),
  );
}

function haulage(formulation: Formulation): PricedNumber[] {
  const { plant, columns } = formulation;
  const feeds = plant.feeds.map((feed, f) =>
    costOf(formulation, { kind: 'feedHaulage', feed: feed.id }, feed.haulage, (month) => [
      columns.receive[f][month],
    ]),
  );
  const disposals = plant.disposals.flatMap((disposal, d) =>
    disposal.materials.map((material, m) =>
      costOf(
        formulation,
        { kind: 'disposalHaulage', disposal: disposal.id, material },
        disposal.haulage[material],
        (month) => [columns.dispose[d][m][month]],
      ),
    ),
  );
  return [...feeds, ...disposals];
}

function stockCosts(formulation: Formulation): PricedNumber[] {
  const { plant, columns } = formulation;
  const last = plant.months.length - 1;
  return plant.materials.flatMap(({ id, stock }, m): PricedNumber[] => {
    if (stock === undefined) return [];
    const held = (month: number) => [columns.stock[m][month]];
    const value = plant.months.map(({ index }) =>
      index === last ? [{ column: columns.stock[m][last], rate: discountFactor(plant, last) }] : [],
    );
    return [
      costOf(formulation, { kind: 'holdingCost', material: id }, stock.holdingCost, held),
      {
        number: { kind: 'closingValue', material: id },
        unit: 'money by mass',
        now: plant.months.map(() => stock.closingValue),
        columns: value,
      },
    ];
  });
}

function shortfallCharges(formulation: Formulation): PricedNumber[] {
  const { plant, columns } = formulation;
  return plant.contracts.flatMap((contract, c): PricedNumber[] => {
    const { shortfall, lastMonth } = contract;
    if (shortfall === undefined || lastMonth === undefined) return [];
    const { charge, termCharge } = shortfall;
    return [
      costOf(formulation, { kind: 'shortfallCharge', contract: contract.id }, charge, (month) =>
        contract.inForce[month] === 0 ? [] : [columns.missed[c][month]],
      ),
      costOf(
        formulation,
        { kind: 'termCharge', contract: contract.id },
        plant.months.map(() => termCharge),
        (month) => (month === lastMonth ? [columns.missedTerm[c]] : []),
      ),
    ];
  });
}
