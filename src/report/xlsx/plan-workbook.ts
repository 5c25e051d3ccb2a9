import writeWorkbook from 'write-excel-file/node';
import { formatMoney } from '../figure.js';
import { proofLines } from '../headline.js';
import type { PlannedDocument } from '../plan-document.js';
import { printable } from '../printable.js';
import type { Section } from '../section.js';
import { monthSections, totalSections } from '../sections/of-plan.js';
import { type Cell, sectionSheet, type WorkbookSheet } from './section-sheet.js';
import { statementByMonth } from './statement-by-month.js';

/**
 * A plan as a workbook (ISO/IEC 29500): a sheet a table, figures in full under formats of their kind with the unit
 * in the head, totals as formulas over what they add up.
 *
 * @param month index of a month; undefined: all of them together
 */
export async function planWorkbook(document: PlannedDocument, month: number | undefined): Promise<Buffer> {
  const { units } = document;
  const at = document.months.length === 1 ? 0 : month;
  const sections: Section[] = [
    ...(document.months.length > 1 ? [statementByMonth(document)] : []),
    ...(at === undefined ? totalSections(document) : monthSections(document, at)),
  ];
  const sheets: WorkbookSheet[] = [
    coverSheet(document, at),
    ...sections
      .filter(({ table, totals = 0 }) => table.rows.length > totals)
      .map((each) => sectionSheet(each, units)),
  ];
  return writeWorkbook(named(sheets)).toBuffer();
}

function coverSheet(document: PlannedDocument, month: number | undefined): WorkbookSheet {
  const { title, units, horizon, margin, presentValue, total, cautions, engine } = document;
  const { currency, mass } = units;
  const last = document.months[document.months.length - 1].month;
  const span = month === undefined ? `${horizon.firstMonth} to ${last}` : document.months[month].month;
  const shown = month === undefined ? margin : document.statement.byMonth[month];
  const line = (name: string, value: number | string, unit = ''): Cell[] => [
    { value: name },
    typeof value === 'number'
      ? { value, type: Number, format: '#,##0.00', align: 'right' }
      : { value: printable(value) },
    { value: unit },
  ];
  return {
    sheet: 'Plan',
    columns: [{ width: 34 }, { width: 26 }, { width: 14 }],
    data: [
      [{ value: printable(title), fontWeight: 'bold', fontSize: 14 }],
      line('tables for', span),
      line('margin', shown, currency),
      line('present value, all months', presentValue, currency),
      line('received, all months', total.received, mass),
      line('every mass in', mass),
      line('every amount in', currency),
      line('solved by', `${engine.name} ${engine.version}`),
      line('money that moves', formatMoney(document.statement.scale, currency)),
      ...[...proofLines(document), ...cautions].map((text): Cell[] => [{ value: text }]),
    ],
  };
}

/** Sheets' names are short, tell one from another, and hold no character that formulas give a meaning. */
function named(sheets: readonly WorkbookSheet[]): WorkbookSheet[] {
  const taken = new Set<string>();
  return sheets.map((sheet) => {
    const plain = printable(sheet.sheet)
      .split(':')[0]
      .replace(/[\\/?*[\]:']/g, ' ')
      .trim()
      .slice(0, 28);
    let name = plain;
    for (let i = 2; taken.has(name.toLowerCase()); i += 1) name = `${plain} ${i}`;
    taken.add(name.toLowerCase());
    return { ...sheet, sheet: name };
  });
}
