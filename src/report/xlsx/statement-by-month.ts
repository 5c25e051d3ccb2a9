import type { PlannedDocument } from '../plan-document.js';
import type { Section } from '../section.js';

/** The statement with a column for each month and their sum. */
export function statementByMonth({ statement, months }: PlannedDocument): Section {
  return {
    title: 'Statement by month',
    table: {
      columns: [
        { head: 'line', kind: 'text' },
        ...months.map(({ month }) => ({ head: month, kind: 'money' }) as const),
        { head: 'total', kind: 'money' },
      ],
      rows: [
        ...statement.lines.map(({ line, byMonth, total }) => [line, ...byMonth, total]),
        ['margin', ...statement.byMonth, statement.margin],
      ],
    },
    totals: 1,
  };
}
