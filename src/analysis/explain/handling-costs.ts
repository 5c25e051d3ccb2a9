import { discountFactor } from '../../planning/discount.js';
import type { Formulation } from '../../planning/formulate.js';
import { costOf, type PricedNumber } from './priced-number.js';

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

/** A cost by mass of the columns that there are in a month. */
function byMass(
  { plant }: Formulation,
  number: PricedNumber['number'],
  now: readonly number[],
  columnsIn: (month: number) => readonly (number | undefined)[],
): PricedNumber {
  return costOf(plant, { number, unit: 'money by mass', now }, (month) =>
    columnsIn(month).flatMap((column) => (column === undefined ? [] : [{ column }])),
  );
}

function outletCosts(formulation: Formulation): PricedNumber[] {
  const { plant, columns } = formulation;
  return plant.outlets.flatMap((outlet, o) => {
    const sold = (month: number) => columns.sell[o].map((tier) => tier[month]);
    return [
      byMass(formulation, { kind: 'outletFreight', outlet: outlet.id }, outlet.freight, sold),
      byMass(formulation, { kind: 'outletPacking', outlet: outlet.id }, outlet.packing, sold),
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
        byMass(formulation, { kind: 'contractFreight', ...key }, contract.freight[material], delivered),
        byMass(formulation, { kind: 'contractPacking', ...key }, contract.packing[material], delivered),
      ];
    }),
  );
}

function haulage(formulation: Formulation): PricedNumber[] {
  const { plant, columns } = formulation;
  const feeds = plant.feeds.map((feed, f) =>
    byMass(formulation, { kind: 'feedHaulage', feed: feed.id }, feed.haulage, (month) => [
      columns.receive[f][month],
    ]),
  );
  const disposals = plant.disposals.flatMap((disposal, d) =>
    disposal.materials.map((material, m) =>
      byMass(
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
      byMass(formulation, { kind: 'holdingCost', material: id }, stock.holdingCost, held),
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
      byMass(formulation, { kind: 'shortfallCharge', contract: contract.id }, charge, (month) =>
        contract.inForce[month] === 0 ? [] : [columns.missed[c][month]],
      ),
      byMass(
        formulation,
        { kind: 'termCharge', contract: contract.id },
        plant.months.map(() => termCharge),
        (month) => (month === lastMonth ? [columns.missedTerm[c]] : []),
      ),
    ];
  });
}
