import { cashTable } from '../csv/money.js';
import type { PlannedDocument } from '../plan-document.js';
import type { Section } from '../section.js';

/** The statement, and money when it is paid. */

export function statementSection({ statement }: PlannedDocument): Section {
  return {
    title: 'Statement',
    table: {
      columns: [
        { head: 'line', kind: 'text' },
        { head: 'amount', kind: 'money' },
        { head: 'present value', kind: 'money' },
      ],
      rows: [
        ...statement.lines.map((each) => [each.line, each.total, each.presentValue]),
        ['margin', statement.margin, statement.presentValue],
      ],
    },
    totals: 1,
  };
}

/** The statement of one month of several: its present value is in the statement of all months. */
export function monthStatementSection({ statement }: PlannedDocument, month: number): Section {
  return {
    title: 'Statement',
    table: {
      columns: [
        { head: 'line', kind: 'text' },
        { head: 'amount', kind: 'money' },
      ],
      rows: [
        ...statement.lines.map((each) => [each.line, each.byMonth[month]]),
        ['margin', statement.byMonth[month]],
      ],
    },
    totals: 1,
  };
}

export function cashSection(document: PlannedDocument): Section {
  return { title: 'Cash', table: cashTable(document) };
}
