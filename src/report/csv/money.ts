import type { PlannedDocument } from '../plan-document.js';
import type { Table } from '../table.js';

export function statementTable({ statement, months }: PlannedDocument): Table {
  return {
    columns: [
      { head: 'line', kind: 'text' },
      ...months.map(({ month }) => ({ head: month, kind: 'money' as const })),
      { head: 'total', kind: 'money' },
      { head: 'present value', kind: 'money' },
    ],
    rows: [
      ...statement.lines.map((each) => [each.line, ...each.byMonth, each.total, each.presentValue]),
      ['margin', ...statement.byMonth, statement.margin, statement.presentValue],
    ],
  };
}

export function cashTable({ cash }: PlannedDocument): Table {
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'receipts', kind: 'money' },
      { head: 'payments', kind: 'money' },
      { head: 'net', kind: 'money' },
      { head: 'balance', kind: 'money' },
    ],
    rows: cash.map((each) => [
      each.month ?? 'after the horizon',
      each.receipts,
      each.payments,
      each.net,
      each.balance,
    ]),
  };
}
