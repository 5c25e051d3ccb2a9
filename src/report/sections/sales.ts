import type { PlanMonth } from '../../planning/plan.js';
import type { Names } from '../names.js';
import type { PlanTotal } from '../plan-total.js';
import type { Section } from '../section.js';
import { sumOf } from '../sum.js';

/** What is sold on the spot and what contracts take. */

export function salesSection(names: Names, month: PlanMonth): Section {
  return {
    title: 'Sales by outlet and tier',
    table: {
      columns: [
        { head: 'outlet', kind: 'text' },
        { head: 'material', kind: 'text' },
        { head: 'tier', kind: 'count' },
        { head: 'sold', kind: 'mass' },
        { head: 'at most', kind: 'mass' },
        { head: 'price', kind: 'money by mass' },
        { head: 'receipts', kind: 'money' },
      ],
      rows: [
        ...month.sales.flatMap((each) =>
          each.tiers.map(({ mass, width, price }, i) => [
            names.outlets[each.outlet],
            names.materials[each.material],
            i + 1,
            mass,
            width,
            price,
            mass * price,
          ]),
        ),
        [
          'total',
          '',
          '',
          sumOf(month.sales, (each) => each.mass),
          '',
          '',
          sumOf(month.sales, (each) => each.receipts),
        ],
      ],
    },
    totals: 1,
  };
}

export function saleTotalsSection(names: Names, sales: PlanTotal['sales']): Section {
  return {
    title: 'Sales by outlet',
    table: {
      columns: [
        { head: 'outlet', kind: 'text' },
        { head: 'material', kind: 'text' },
        { head: 'sold', kind: 'mass' },
        { head: 'average price', kind: 'money by mass' },
        { head: 'receipts', kind: 'money' },
      ],
      rows: [
        ...sales.map((each) => [
          names.outlets[each.outlet],
          names.materials[each.material],
          each.mass,
          each.mass > 0 ? each.receipts / each.mass : undefined,
          each.receipts,
        ]),
        ['total', '', sumOf(sales, (each) => each.mass), '', sumOf(sales, (each) => each.receipts)],
      ],
    },
    totals: 1,
  };
}

export function contractsSection(names: Names, month: PlanMonth): Section {
  return {
    title: 'Contracts',
    table: {
      columns: [
        { head: 'contract', kind: 'text' },
        { head: 'buyer', kind: 'text' },
        { head: 'delivered', kind: 'mass' },
        { head: 'at least', kind: 'mass' },
        { head: 'at most', kind: 'mass' },
        { head: 'called', kind: 'mass' },
        { head: 'missed', kind: 'mass' },
        { head: 'missed of the term', kind: 'mass' },
        { head: 'charges', kind: 'money' },
        { head: 'receipts', kind: 'money' },
      ],
      rows: month.contracts.map((each) => [
        names.contracts[each.contract],
        each.buyer,
        each.delivered,
        each.min,
        each.max,
        each.expected,
        each.missed,
        each.missedTerm,
        each.shortfallCharge + each.termCharge,
        each.receipts,
      ]),
    },
  };
}

export function deliveriesSection(names: Names, month: PlanMonth): Section {
  return {
    title: 'Deliveries by contract',
    table: {
      columns: [
        { head: 'contract', kind: 'text' },
        { head: 'material', kind: 'text' },
        { head: 'delivered', kind: 'mass' },
        { head: 'price', kind: 'money by mass' },
        { head: 'receipts', kind: 'money' },
      ],
      rows: month.contracts.flatMap((each) =>
        each.materials.map(({ material, mass, price }) => [
          names.contracts[each.contract],
          names.materials[material],
          mass,
          price,
          mass * price,
        ]),
      ),
    },
  };
}

export function contractTotalsSection(names: Names, contracts: PlanTotal['contracts']): Section {
  return {
    title: 'Contracts',
    table: {
      columns: [
        { head: 'contract', kind: 'text' },
        { head: 'buyer', kind: 'text' },
        { head: 'delivered', kind: 'mass' },
        { head: "months' minimums", kind: 'mass' },
        { head: 'missed in months', kind: 'mass' },
        { head: 'term, at least', kind: 'mass' },
        { head: 'term, at most', kind: 'mass' },
        { head: 'missed of the term', kind: 'mass' },
        { head: 'charges', kind: 'money' },
        { head: 'receipts', kind: 'money' },
      ],
      rows: contracts.map((each) => [
        names.contracts[each.contract],
        each.buyer,
        each.delivered,
        each.min,
        each.missed,
        each.termMin,
        each.termMax,
        each.missedTerm,
        each.shortfallCharge + each.termCharge,
        each.receipts,
      ]),
    },
  };
}
