import type { PlanMonth } from '../../planning/plan.js';
import type { Names } from '../names.js';
import type { PlanTotal } from '../plan-total.js';
import type { Section } from '../section.js';
import { sumOf } from '../sum.js';

/** What comes in, what is held, and what goes out as waste. */

export function feedsSection(names: Names, receipts: PlanTotal['receipts']): Section {
  return {
    title: 'Feeds',
    table: {
      columns: [
        { head: 'feed', kind: 'text' },
        { head: 'material', kind: 'text' },
        { head: 'received', kind: 'mass' },
        { head: 'committed', kind: 'mass' },
        { head: 'available', kind: 'mass' },
        { head: 'tipping fees', kind: 'money' },
      ],
      rows: [
        ...receipts.map((each) => [
          names.feeds[each.feed],
          names.materials[each.material],
          each.mass,
          each.committed,
          each.available,
          each.income,
        ]),
        [
          'total',
          undefined,
          sumOf(receipts, (each) => each.mass),
          sumOf(receipts, (each) => each.committed),
          sumOf(receipts, (each) => each.available),
          sumOf(receipts, (each) => each.income),
        ],
      ],
    },
    totals: 1,
  };
}

export function wasteSection(names: Names, disposals: PlanTotal['disposals']): Section {
  return {
    title: 'Waste',
    table: {
      columns: [
        { head: 'disposal', kind: 'text' },
        { head: 'material', kind: 'text' },
        { head: 'mass', kind: 'mass' },
        { head: 'charge and haulage', kind: 'money' },
      ],
      rows: disposals.map((each) => [
        names.disposals[each.disposal],
        names.materials[each.material],
        each.mass,
        each.cost,
      ]),
    },
  };
}

export function stocksSection(names: Names, month: PlanMonth): Section {
  return {
    title: 'Stocks',
    table: {
      columns: [
        { head: 'material', kind: 'text' },
        { head: 'opening', kind: 'mass' },
        { head: 'closing', kind: 'mass' },
        { head: 'at least', kind: 'mass' },
        { head: 'at most', kind: 'mass' },
      ],
      rows: month.stocks.map((each) => [
        names.materials[each.material],
        each.opening,
        each.closing,
        each.min,
        each.capacity,
      ]),
    },
  };
}

export function storesSection(names: Names, month: PlanMonth): Section {
  return {
    title: 'Stores',
    table: {
      columns: [
        { head: 'store', kind: 'text' },
        { head: 'held', kind: 'mass' },
        { head: 'at most', kind: 'mass' },
      ],
      rows: month.stores.map((each) => [names.stores[each.store], each.mass, each.capacity]),
    },
  };
}
