import { curveChart } from '../charts/curve-chart.js';
import { formatMoney } from '../figure.js';
import type { NameById } from '../names.js';
import type { Section } from '../section.js';
import type { Table } from '../table.js';
import { axisTitle } from './parameter-words.js';
import { plain } from './plain.js';
import type { QuestionReport } from './question-report.js';
import type { SweepDocument, SweepMapDocument } from './sweep-schema.js';
import { pointsTable, printedPoints, rangesTable } from './sweep-tables.js';
import { tonnesChart, tonnesTable } from './sweep-tonnes.js';
import { sweptWords } from './swept-words.js';

/**
 * A sweep in every form; everything is read off its document.
 *
 * @param names of materials, where ids are not to be shown
 */
export function sweepReport(document: SweepDocument, names: NameById = {}): QuestionReport {
  const { units } = document;
  const tonnes = tonnesChart(document, names);
  return {
    document,
    units,
    headline: [
      `${document.title}: present value over ${axisTitle(sweptWords(document))}.`,
      ...verdict(document),
    ],
    sections: [pointsSection(document)],
    tables: [
      { name: 'sweep', table: pointsTable(document) },
      { name: 'sweep-ranges', table: rangesTable(document) },
      { name: 'sweep-tonnes', table: tonnesTable(document) },
    ],
    charts: [
      { name: 'sweep', svg: sweepChart(document) },
      ...(tonnes === undefined ? [] : [{ name: 'sweep-tonnes', svg: tonnes }]),
    ],
  };
}

/** A map in every form. */
export function sweepMapReport(document: SweepMapDocument): QuestionReport {
  const { units, rows } = document;
  const by = axisTitle(sweptWords({ of: document.by }));
  const table: Table = {
    columns: [
      { head: by, kind: 'text' },
      { head: axisTitle(sweptWords(document)), kind: 'text' },
      { head: 'present value', kind: 'money' },
      { head: 'exact', kind: 'text' },
    ],
    rows: rows.flatMap((row) =>
      row.points.map(({ at, value }) => [plain(row.by), plain(at), value, row.exact ? 'yes' : 'no']),
    ),
  };
  const shown = [...new Set([0, Math.floor((rows.length - 1) / 2), rows.length - 1])].map((i) => rows[i]);
  return {
    document,
    units,
    headline: [`${document.title}: present value over ${axisTitle(sweptWords(document))} and ${by}.`],
    sections: [{ title: 'Values', table }],
    tables: [{ name: 'sweep-map', table }],
    charts: [
      {
        name: 'sweep-map',
        svg: curveChart({
          title: `Present value over ${sweptWords(document).name}, for values of ${document.by.pointers.join(', ')}`,
          description: `One line for each of ${shown.length} values of the second number.`,
          xTitle: axisTitle(sweptWords(document)),
          yTitle: `Present value (${units.currency})`,
          lines: shown.map((row) => ({
            name: plain(row.by),
            points: row.points.map(({ at, value, kind }) => ({
              x: at,
              y: value,
              isMarked: kind === 'breakpoint',
            })),
          })),
        }),
      },
    ],
  };
}

export function sweepChart(document: SweepDocument): string {
  const { points, ranges, units, of } = document;
  const words = sweptWords(document);
  return curveChart({
    title: `${document.title}: present value over ${words.name}`,
    description: verdict(document).join(' '),
    xTitle: axisTitle(words),
    yTitle: `Present value (${units.currency})`,
    lines: [
      {
        name: 'best plan',
        points: points.map(({ at, value, kind }) => ({ x: at, y: value, isMarked: kind === 'breakpoint' })),
      },
    ],
    bands: ranges
      .filter(({ status }) => status !== 'answered')
      .map(({ from, to, status }) => ({ from, to, label: BAND_LABELS[status] ?? status })),
    guides: of.own === undefined ? [] : [{ x: of.own, label: `as it is: ${plain(of.own)}` }],
    note: document.exact
      ? 'Exact; rings mark the breakpoints, where the plan changes.'
      : (errorInWords(document) ?? 'Not complete.'),
  });
}

const BAND_LABELS: Readonly<Record<string, string>> = {
  infeasible: 'no feasible plan',
  invalid: 'no valid scenario',
};

function verdict(document: SweepDocument): string[] {
  const { points, exact, solves, ranges, status } = document;
  const countOf = (wanted: string) => points.filter(({ kind }) => kind === wanted).length;
  const [breaks, turns] = [countOf('breakpoint'), countOf('plan change')];
  const shape = exact
    ? `The curve is exact, with ${breaks} breakpoint${breaks === 1 ? '' : 's'}, from ${solves} solves.${turns === 0 ? '' : ` The plan also changes at ${turns} place${turns === 1 ? '' : 's'} where the value runs straight on.`}`
    : points.length === 0
      ? status === 'partial'
        ? 'It was stopped before a first point of the curve was found.'
        : 'There is no curve.'
      : `The curve is sampled at ${points.length} points. ${errorInWords(document) ?? ''}`.trim();
  const rest = ranges
    .filter((range) => range.status !== 'answered')
    .map(({ from, to, reason, status: kind }) =>
      `From ${plain(from)} to ${plain(to)}: ${kind}. ${reason ?? ''}`.trim(),
    );
  return [shape, ...(status === 'partial' ? ['Stopped: this is a part of the answer.'] : []), ...rest];
}

function errorInWords({ error, planGap, units }: SweepDocument): string | undefined {
  if (error === undefined) return undefined;
  const amount = formatMoney(error.amount, units.currency);
  const ofPlans =
    planGap === undefined
      ? ''
      : ` With whole shifts each plan lies within ${formatMoney(planGap, units.currency)} of the best one.`;
  return error.kind === 'proved'
    ? `Between the points the curve is at most ${amount} off the lines: proved.`
    : `At midpoints not asked before the curve was up to ${amount} off the lines: measured, not proved.${ofPlans}`;
}

function pointsSection(document: SweepDocument): Section {
  const { points } = document;
  return {
    title: 'Points',
    table: printedPoints(document),
    notes: points.flatMap((point, i) => notesOf(point, points[i + 1]?.at)),
  };
}

function notesOf({ at, kind, change, onward }: SweepDocument['points'][number], next?: number): string[] {
  const straight = kind === 'plan change' ? ' (the value runs straight on)' : '';
  const to = next === undefined ? ' on' : ` to ${plain(next)}`;
  return [
    ...(change === '' ? [] : [`At ${plain(at)}${straight}: ${change}.`]),
    ...(onward === undefined ? [] : [`From ${plain(at)}${to}: ${onward}.`]),
  ];
}
