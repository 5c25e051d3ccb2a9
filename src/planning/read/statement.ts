import type { Plant } from '../../plant/plant.js';
import { discountFactor } from '../discount.js';
import { type CashMonth, STATEMENT_LINES, type Statement } from '../plan.js';
import type { LedgerEntry } from './ledger.js';

/** Sums a ledger by line and month. */
export function statementOf(plant: Plant, ledger: readonly LedgerEntry[]): Statement {
  const lines = STATEMENT_LINES.map((line) => {
    const entries = ledger.filter((entry) => entry.line === line);
    const byMonth = plant.months.map(() => 0);
    for (const { month, amount } of entries) byMonth[month] += amount;
    const presentValue = entries.reduce((sum, entry) => sum + presentValueOf(plant, entry), 0);
    return { line, byMonth, total: sumOf(entries), presentValue };
  });
  return {
    lines,
    byMonth: plant.months.map(({ index }) => lines.reduce((sum, line) => sum + line.byMonth[index], 0)),
    margin: lines.reduce((sum, line) => sum + line.total, 0),
    presentValue: lines.reduce((sum, line) => sum + line.presentValue, 0),
    scale: lines.reduce((sum, line) => sum + Math.abs(line.presentValue), 0),
  };
}

const RECEIPTS: ReadonlySet<string> = new Set(['tipping fees', 'sales', 'contract receipts']);

/**
 * Sums a ledger by the month in which money moves. A payment on day n falls in the month that n ends or lies
 * in; the change in stock value is no cash.
 */
export function cashOf(plant: Plant, ledger: readonly LedgerEntry[]): CashMonth[] {
  const months = plant.months.map((month) => ({
    month: month.label as string | undefined,
    receipts: 0,
    payments: 0,
  }));
  const later = { month: undefined, receipts: 0, payments: 0 };
  for (const entry of ledger) {
    if (entry.line === 'change in stock value') continue;
    const day = plant.months[entry.month].endDay + entry.paymentDays;
    const position = plant.months.findIndex((month) => day <= month.endDay);
    const target = position < 0 ? later : months[position];
    if (RECEIPTS.has(entry.line)) target.receipts += entry.amount;
    else target.payments += entry.amount;
  }
  let balance = 0;
  return [...months, later].map(({ month, receipts, payments }) => {
    const net = receipts + payments;
    balance += net;
    return { ...(month === undefined ? {} : { month }), receipts, payments, net, balance };
  });
}

function presentValueOf(plant: Plant, entry: LedgerEntry): number {
  return entry.amount * discountFactor(plant, entry.month, entry.paymentDays);
}

function sumOf(entries: readonly LedgerEntry[]): number {
  return entries.reduce((sum, entry) => sum + entry.amount, 0);
}
