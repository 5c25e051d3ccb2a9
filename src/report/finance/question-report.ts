import { csvText } from '../csv.js';
import type { ReportUnits } from '../figure.js';
import type { CsvFile } from '../plan-csv.js';
import { printParagraph, printSection, type Section } from '../section.js';
import type { Table } from '../table.js';

/** The answer to one question in every form in which it is given out. */
export interface QuestionReport {
  /** JSON with a `format`. */
  readonly document: object;
  readonly units: ReportUnits;
  /** What it comes to, in a paragraph or two. */
  readonly headline: readonly string[];
  readonly sections: readonly Section[];
  readonly tables: readonly { readonly name: string; readonly table: Table }[];
  readonly charts: readonly { readonly name: string; readonly svg: string }[];
}

export function printReport({ headline, sections, units }: QuestionReport): string {
  return [...headline.map(printParagraph), ...sections.map((section) => printSection(section, units))].join(
    '\n',
  );
}

export function reportCsv({ tables, units }: QuestionReport): CsvFile[] {
  return tables.map(({ name, table }) => ({ name: `${name}.csv`, text: csvText(table, units) }));
}
