import type { Formulation } from '../../planning/formulate.js';
import { ofRow } from './limit-of.js';
import type { PlanLimit } from './plan-limit.js';

/** A monthly minimum or call; what may be missed of it moves with it. */
export function minimum(
  { plant, program, columns }: Formulation,
  key: {
    readonly kind: 'contractMinimum' | 'contractCall';
    readonly contract: string;
    readonly month: number;
  },
  amount: number,
  index: number,
): PlanLimit {
  const sense = key.kind === 'contractCall' ? 'equal' : 'lower';
  const limit = ofRow(
    { kind: key.kind, contract: key.contract, month: key.month },
    'mass',
    sense,
    amount,
    index,
  );
  const contract = plant.contracts.findIndex(({ id }) => id === key.contract);
  const missed = columns.missed[contract][key.month];
  if (missed === undefined) return limit;
  const short = columns.short[contract][key.month];
  const change = { ...limit.change, columnUpper: new Map([[missed, 1]]) };
  if (short === undefined || program.columnLower[short] === 0) return { ...limit, change };
  const rowUpper = new Map(limit.change.rowUpper);
  program.rowKeys.forEach((row, i) => {
    const inMonth = row.kind === 'missedOnlyWhenShort' || row.kind === 'notBoth';
    if (inMonth && row.contract === key.contract && row.month === key.month) rowUpper.set(i, 1);
  });
  return { ...limit, change: { ...change, rowUpper } };
}

/** A monthly maximum; in a month that is told not to be short, what holds it to that moves with it. */
export function maximum(
  { program, columns, plant }: Formulation,
  key: { readonly kind: 'contractMaximum'; readonly contract: string; readonly month: number },
  amount: number,
  index: number,
): PlanLimit {
  const limit = ofRow(
    { kind: key.kind, contract: key.contract, month: key.month },
    'mass',
    'upper',
    amount,
    index,
  );
  const contract = plant.contracts.findIndex(({ id }) => id === key.contract);
  const short = columns.short[contract][key.month];
  if (short === undefined || program.columnUpper[short] !== 0) return limit;
  const rowUpper = new Map(limit.change.rowUpper);
  program.rowKeys.forEach((row, i) => {
    if (row.kind === 'notBoth' && row.contract === key.contract && row.month === key.month)
      rowUpper.set(i, 1);
  });
  return { ...limit, change: { ...limit.change, rowUpper } };
}
