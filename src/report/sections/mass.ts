import type { Rung } from '../../planning/plan.js';
import type { PlannedDocument } from '../plan-document.js';
import type { Section } from '../section.js';
import { sumOf } from '../sum.js';

/** Where tonnes stop on the ladder, what they are worth, and that mass closes. */

/** Share of the whole below which a mass is the solver's rounding, not a decision: such rows are not printed. */
const NOTHING = 1e-9;

export function ladderSection(
  { names, units }: PlannedDocument,
  rungs: readonly Rung[],
  rest: number,
): Section {
  const all = sumOf(rungs, (rung) => rung.tires);
  const used = rungs.filter((rung) => rung.tires > NOTHING * all);
  const each = (money: number, tires: number) => (tires > 0 ? money / tires : undefined);
  return {
    title: `Ladder: where a ${units.mass} of whole tire stops and what it brings there`,
    table: {
      columns: [
        { head: 'stops as', kind: 'text' },
        { head: 'leaves', kind: 'mass' },
        { head: 'of whole tire', kind: 'mass' },
        { head: 'price', kind: 'money by mass' },
        { head: 'tipping fee', kind: 'money by mass' },
        { head: 'by-products', kind: 'money by mass' },
        { head: 'cost', kind: 'money by mass' },
        { head: 'net', kind: 'money by mass' },
        { head: 'net in total', kind: 'money' },
      ],
      rows: [
        ...used.map((rung) => [
          names.materials[rung.material],
          rung.mass,
          rung.tires,
          each(rung.price, rung.tires),
          each(rung.tippingFee, rung.tires),
          each(rung.byProducts, rung.tires),
          each(rung.cost, rung.tires),
          each(rung.net, rung.tires),
          rung.net,
        ]),
        ['not by rung', '', '', '', '', '', '', '', rest],
        [
          'margin',
          sumOf(rungs, (rung) => rung.mass),
          all,
          '',
          '',
          '',
          '',
          '',
          sumOf(rungs, (rung) => rung.net) + rest,
        ],
      ],
    },
    totals: 2,
    notes: [
      `Figures by ${units.mass} of whole tire that stops there. Price: less freight and packing. By-products: at their worth. Not by rung: by-products against their worth, change in stock, demand charge, fixed costs.`,
    ],
  };
}

export function massBalanceSection({ names, massBalance, units }: PlannedDocument): Section {
  return {
    title: 'Mass balance',
    table: {
      columns: [
        { head: 'material', kind: 'text' },
        { head: 'opening', kind: 'mass' },
        { head: 'received', kind: 'mass' },
        { head: 'made', kind: 'mass' },
        { head: 'used', kind: 'mass' },
        { head: 'sold', kind: 'mass' },
        { head: 'delivered', kind: 'mass' },
        { head: 'disposed', kind: 'mass' },
        { head: 'closing', kind: 'mass' },
      ],
      rows: massBalance.materials.map((each) => [
        names.materials[each.material],
        each.opening,
        each.received,
        each.made,
        each.used,
        each.sold,
        each.delivered,
        each.disposed,
        each.closing,
      ]),
    },
    notes: [closes(massBalance, units.mass)],
  };
}

export function worthSection({ names, worth, units }: PlannedDocument, month: number): Section {
  return {
    title: `Worth: what one more ${units.mass} adds to the margin`,
    table: {
      columns: [
        { head: 'material', kind: 'text' },
        { head: "at the month's end", kind: 'money by mass' },
        { head: 'present value', kind: 'money by mass' },
      ],
      rows: worth.map((each) => [
        names.materials[each.material],
        each.byMonth[month],
        each.presentValue[month],
      ]),
    },
  };
}

function closes(balance: PlannedDocument['massBalance'], unit: string): string {
  const residual = Math.abs(balance.residual).toExponential(1);
  return `In less out less change in stock: ${residual} ${unit}.`;
}
