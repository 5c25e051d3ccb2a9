import type { PlannedDocument } from '../plan-document.js';
import type { Table } from '../table.js';
import { rowsByMonth } from './rows.js';

export function receiptsTable(document: PlannedDocument): Table {
  const { names } = document;
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'feed', kind: 'text' },
      { head: 'name', kind: 'text' },
      { head: 'material', kind: 'text' },
      { head: 'received', kind: 'mass' },
      { head: 'committed', kind: 'mass' },
      { head: 'available', kind: 'mass' },
      { head: 'tipping fees', kind: 'money' },
    ],
    rows: rowsByMonth(document, (month) =>
      month.receipts.map((each) => [
        each.feed,
        names.feeds[each.feed],
        each.material,
        each.mass,
        each.committed,
        each.available,
        each.income,
      ]),
    ),
  };
}

export function stocksTable(document: PlannedDocument): Table {
  const { names } = document;
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'material', kind: 'text' },
      { head: 'name', kind: 'text' },
      { head: 'opening', kind: 'mass' },
      { head: 'closing', kind: 'mass' },
      { head: 'at least', kind: 'mass' },
      { head: 'at most', kind: 'mass' },
    ],
    rows: rowsByMonth(document, (month) =>
      month.stocks.map((each) => [
        each.material,
        names.materials[each.material],
        each.opening,
        each.closing,
        each.min,
        each.capacity,
      ]),
    ),
  };
}

export function storesTable(document: PlannedDocument): Table {
  const { names } = document;
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'store', kind: 'text' },
      { head: 'name', kind: 'text' },
      { head: 'held', kind: 'mass' },
      { head: 'at most', kind: 'mass' },
    ],
    rows: rowsByMonth(document, (month) =>
      month.stores.map((each) => [each.store, names.stores[each.store], each.mass, each.capacity]),
    ),
  };
}

export function disposalsTable(document: PlannedDocument): Table {
  const { names } = document;
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'disposal', kind: 'text' },
      { head: 'name', kind: 'text' },
      { head: 'material', kind: 'text' },
      { head: 'mass', kind: 'mass' },
      { head: 'charge and haulage', kind: 'money' },
    ],
    rows: rowsByMonth(document, (month) =>
      month.disposals.map((each) => [
        each.disposal,
        names.disposals[each.disposal],
        each.material,
        each.mass,
        each.cost,
      ]),
    ),
  };
}
