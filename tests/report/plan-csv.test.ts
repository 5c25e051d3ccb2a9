import { parse } from 'csv-parse/sync';
import { beforeAll, describe, expect, test } from 'vitest';
import { csvText } from '../../src/report/csv.js';
import { PLAN_TABLES, planCsv } from '../../src/report/plan-csv.js';
import type { PlannedDocument } from '../../src/report/plan-document.js';
import { plannedDocumentOf, SMALL_WORKS } from './small-works.js';

let document: PlannedDocument;

beforeAll(async () => {
  document = await plannedDocumentOf(SMALL_WORKS);
});

/** Read by a CSV library of general purpose, csv-parse. */
function read(text: string): string[][] {
  return parse(text, { relax_column_count: false, record_delimiter: '\r\n' });
}

describe('the CSV files of a plan', () => {
  test('read back to the figures of the plan, to the last digit', () => {
    const files = new Map(planCsv(document).map(({ name, text }) => [name, text]));
    for (const [name, tableOf] of Object.entries(PLAN_TABLES)) {
      const table = tableOf(document);
      const [head, ...rows] = read(files.get(`${name}.csv`)!);
      expect(head).toHaveLength(table.columns.length);
      const back = rows.map((row) =>
        row.map((field, i) => {
          if (table.columns[i].kind === 'text') return field.replace(/^'(?==)/, '');
          return field === '' ? undefined : Number(field);
        }),
      );
      const data = table.rows.map((row) =>
        row.map((cell, i) => (table.columns[i].kind === 'text' ? (cell ?? '') : cell === 0 ? 0 : cell)),
      );
      expect(back).toEqual(data);
    }
  });

  test('add up to the margin', () => {
    const statement = planCsv(document).find((file) => file.name === 'statement.csv')!;
    const rows = read(statement.text).slice(1);
    const total = (row: string[]) => Number(row.at(-2));
    const lines = rows.slice(0, -1).reduce((sum, row) => sum + total(row), 0);
    expect(lines).toBeCloseTo(document.margin, 6);
    expect(total(rows.at(-1)!)).toBe(document.margin);
  });

  test('have units in their heads', () => {
    const sales = planCsv(document).find((file) => file.name === 'sales.csv')!;
    expect(read(sales.text)[0]).toEqual([
      'month',
      'outlet',
      'name',
      'material',
      'tier',
      'sold (short ton)',
      'at most (short ton)',
      'price (JPY/short ton)',
    ]);
  });
});

describe('CSV', () => {
  const units = { mass: 'tonne', currency: 'EUR' };
  const one = (cell: string | number | undefined) =>
    csvText(
      {
        columns: [
          { head: 'a', kind: 'text' },
          { head: 'b', kind: 'count' },
        ],
        rows: [[cell, 1]],
      },
      units,
    );

  test('ends lines with CRLF and quotes where RFC 4180 asks for it', () => {
    expect(one('x')).toBe('a,b\r\nx,1\r\n');
    expect(one('x, "y"\r\nz')).toBe('a,b\r\n"x, ""y""\r\nz",1\r\n');
  });

  // The characters are those that OWASP's page on CSV injection names (from memory).
  test.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', '\n=1', '＝1'])(
    'a text that a spreadsheet would take for a formula is made plain text: %j',
    (text) => {
      expect(read(one(text))[1][0]).toBe(`'${text}`);
    },
  );

  test('a negative figure stays a figure', () => {
    expect(one(-1.5)).toBe('a,b\r\n-1.5,1\r\n');
  });
});
