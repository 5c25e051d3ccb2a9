import type { PlannedDocument } from '../plan-document.js';
import type { Table } from '../table.js';
import { rowsByMonth } from './rows.js';

export function salesTable(document: PlannedDocument): Table {
  const { names } = document;
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'outlet', kind: 'text' },
      { head: 'name', kind: 'text' },
      { head: 'material', kind: 'text' },
      { head: 'tier', kind: 'count' },
      { head: 'sold', kind: 'mass' },
      { head: 'at most', kind: 'mass' },
      { head: 'price', kind: 'money by mass' },
    ],
    rows: rowsByMonth(document, (month) =>
      month.sales.flatMap(({ outlet, material, tiers }) =>
        tiers.map((each, i) => [
          outlet,
          names.outlets[outlet],
          material,
          i + 1,
          each.mass,
          each.width,
          each.price,
        ]),
      ),
    ),
  };
}

export function contractsTable(document: PlannedDocument): Table {
  const { names } = document;
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'contract', kind: 'text' },
      { head: 'name', kind: 'text' },
      { head: 'buyer', kind: 'text' },
      { head: 'delivered', kind: 'mass' },
      { head: 'at least', kind: 'mass' },
      { head: 'at most', kind: 'mass' },
      { head: 'called', kind: 'mass' },
      { head: 'missed', kind: 'mass' },
      { head: 'shortfall charge', kind: 'money' },
      { head: 'missed of the term', kind: 'mass' },
      { head: 'term charge', kind: 'money' },
      { head: 'receipts', kind: 'money' },
    ],
    rows: rowsByMonth(document, (month) =>
      month.contracts.map((each) => [
        each.contract,
        names.contracts[each.contract],
        each.buyer,
        each.delivered,
        each.min,
        each.max,
        each.expected,
        each.missed,
        each.shortfallCharge,
        each.missedTerm,
        each.termCharge,
        each.receipts,
      ]),
    ),
  };
}

export function deliveriesTable(document: PlannedDocument): Table {
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'contract', kind: 'text' },
      { head: 'material', kind: 'text' },
      { head: 'delivered', kind: 'mass' },
      { head: 'price', kind: 'money by mass' },
    ],
    rows: rowsByMonth(document, (month) =>
      month.contracts.flatMap(({ contract, materials }) =>
        materials.map((each) => [contract, each.material, each.mass, each.price]),
      ),
    ),
  };
}
