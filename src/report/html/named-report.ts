import { escaped } from '../charts/svg.js';
import type { QuestionReport } from '../finance/question-report.js';
import { printable } from '../printable.js';
import type { ScenarioNumber } from '../scenario-numbers.js';
import type { Section } from '../section.js';

/** A report in which numbers are called by their plain names in place of their pointers. */
export function namedReport(report: QuestionReport, numbers: readonly ScenarioNumber[]): QuestionReport {
  // The longest first: one pointer may begin with another.
  const known = [...numbers].sort((a, b) => b.pointer.length - a.pointer.length);
  const named = (text: string, written: (name: string) => string = (name) => name) =>
    text.includes('/')
      ? known.reduce((said, { pointer, name }) => replaced(said, pointer, written(name)), text)
      : text;
  const section = ({ table, notes, ...rest }: Section): Section => ({
    ...rest,
    table: {
      ...table,
      rows: table.rows.map((row) => row.map((cell) => (typeof cell === 'string' ? named(cell) : cell))),
    },
    ...(notes === undefined ? {} : { notes: notes.map((note) => named(note)) }),
  });
  return {
    ...report,
    headline: report.headline.map((line) => named(line)),
    sections: report.sections.map(section),
    charts: report.charts.map(({ name, svg }) => ({
      name,
      svg: named(svg, (text) => escaped(printable(text))),
    })),
  };
}

function replaced(text: string, pointer: string, name: string): string {
  return text.replaceAll(`factor on ${pointer}`, name).replaceAll(pointer, name);
}
