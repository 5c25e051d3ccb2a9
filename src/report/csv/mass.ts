import type { PlannedDocument } from '../plan-document.js';
import type { Table } from '../table.js';

/** Money in total over the tonnes that stop at a rung, as in the document. */
export function ladderTable({ ladder, months, names }: PlannedDocument): Table {
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'stops as', kind: 'text' },
      { head: 'name', kind: 'text' },
      { head: 'leaves', kind: 'mass' },
      { head: 'whole tire', kind: 'mass' },
      { head: 'price', kind: 'money' },
      { head: 'tipping fee', kind: 'money' },
      { head: 'by-products', kind: 'money' },
      { head: 'cost', kind: 'money' },
      { head: 'net', kind: 'money' },
    ],
    rows: ladder.months.flatMap((rungs, month) =>
      rungs.map((each) => [
        months[month].month,
        each.material,
        names.materials[each.material],
        each.mass,
        each.tires,
        each.price,
        each.tippingFee,
        each.byProducts,
        each.cost,
        each.net,
      ]),
    ),
  };
}

export function worthTable({ worth, months, names }: PlannedDocument): Table {
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'material', kind: 'text' },
      { head: 'name', kind: 'text' },
      { head: "worth at the month's end", kind: 'money by mass' },
      { head: 'present value', kind: 'money by mass' },
    ],
    rows: months.flatMap(({ month }, i) =>
      worth.map((each) => [
        month,
        each.material,
        names.materials[each.material],
        each.byMonth[i],
        each.presentValue[i],
      ]),
    ),
  };
}

export function massBalanceTable({ massBalance, names }: PlannedDocument): Table {
  return {
    columns: [
      { head: 'material', kind: 'text' },
      { head: 'name', kind: 'text' },
      { head: 'opening', kind: 'mass' },
      { head: 'received', kind: 'mass' },
      { head: 'made', kind: 'mass' },
      { head: 'used', kind: 'mass' },
      { head: 'sold', kind: 'mass' },
      { head: 'delivered', kind: 'mass' },
      { head: 'disposed', kind: 'mass' },
      { head: 'closing', kind: 'mass' },
      { head: 'residual', kind: 'mass' },
    ],
    rows: massBalance.materials.map((each) => [
      each.material,
      names.materials[each.material],
      each.opening,
      each.received,
      each.made,
      each.used,
      each.sold,
      each.delivered,
      each.disposed,
      each.closing,
      each.residual,
    ]),
  };
}
