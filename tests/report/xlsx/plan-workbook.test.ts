import { strFromU8, unzipSync } from 'fflate';
import { expect, it } from 'vitest';
import { planWorkbook } from '../../../src/report/xlsx/plan-workbook.js';
import { plannedDocumentOf, SMALL_WORKS } from '../small-works.js';

/** The cells of each sheet by their address, as another reader of ISO/IEC 29500 finds them. */
function cellsOf(bytes: Uint8Array) {
  const files = unzipSync(bytes);
  const names = [...strFromU8(files['xl/workbook.xml']).matchAll(/<sheet [^>]*name="([^"]*)"/g)].map(
    ([, name]) => name,
  );
  return new Map(
    names.map((name, i) => {
      const sheet = strFromU8(files[`xl/worksheets/sheet${i + 1}.xml`]);
      const cells = [...sheet.matchAll(/<c r="([A-Z]+\d+)"([^>]*)>([\s\S]*?)<\/c>/g)].map(
        ([, at, , inside]): [string, { formula?: string; value?: number }] => {
          const formula = /<f>([^<]*)<\/f>/.exec(inside)?.[1];
          const value = /<v>([^<]*)<\/v>/.exec(inside)?.[1];
          return [
            at,
            {
              ...(formula === undefined ? {} : { formula }),
              ...(value === undefined ? {} : { value: Number(value) }),
            },
          ];
        },
      );
      return [name, new Map(cells)];
    }),
  );
}

/** What a spreadsheet makes of SUM over part of a column. */
function evaluated(cells: Map<string, { formula?: string; value?: number }>, at: string): number | undefined {
  const cell = cells.get(at);
  if (cell?.formula === undefined) return cell?.value;
  const [, column, from, to] = /^SUM\(([A-Z]+)(\d+):[A-Z]+(\d+)\)$/.exec(cell.formula) ?? [];
  let sum = 0;
  for (let row = Number(from); row <= Number(to); row += 1) sum += evaluated(cells, `${column}${row}`) ?? 0;
  return sum;
}

const lastRow = (cells: Map<string, unknown>) =>
  Math.max(...[...cells.keys()].map((at) => Number(at.replace(/\D/g, ''))));

it('totals of the workbook are formulas that come to the figures of the plan', async () => {
  const document = await plannedDocumentOf(SMALL_WORKS);
  const sheets = cellsOf(await planWorkbook(document, undefined));
  const statement = sheets.get('Statement by month') ?? new Map();
  const row = lastRow(statement);
  for (const [i, margin] of document.statement.byMonth.entries()) {
    const at = `${String.fromCharCode(66 + i)}${row}`;
    expect(statement.get(at)?.formula).toMatch(/^SUM\(/);
    expect(evaluated(statement, at)).toBeCloseTo(margin, 4);
  }
  const feeds = sheets.get('Feeds') ?? new Map();
  expect(evaluated(feeds, `C${lastRow(feeds)}`)).toBeCloseTo(document.total.received, 6);
});

it('a month of several has its own figures', async () => {
  const document = await plannedDocumentOf(SMALL_WORKS);
  const sheets = cellsOf(await planWorkbook(document, 1));
  const feeds = sheets.get('Feeds') ?? new Map();
  const received = document.months[1].receipts.reduce((sum, { mass }) => sum + mass, 0);
  expect(evaluated(feeds, 'C3')).toBeCloseTo(received, 6);
});
