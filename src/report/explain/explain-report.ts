import type { LimitKey } from '../../analysis/limits/plan-limit.js';
import { ABSENT, formatFigure } from '../figure.js';
import { printable } from '../printable.js';
import { printParagraph, printSection } from '../section.js';
import { textTable } from '../text-table.js';
import type { DocumentRent, ExplainedDocument, ExplanationDocument } from './explain-document.js';
import { changesWords, numberWords } from './firmness-words.js';
import { limitWords } from './limit-words.js';

/** Rows of each table in print; the JSON document has them all. */
const ROWS = 20;

/** An explanation in print, 100 columns wide. */
export function printExplanation(document: ExplanationDocument): string {
  const sentences = document.sentences.map(printParagraph).join('');
  if (document.status !== 'explained') return sentences;
  const head = printParagraph(`${document.title}: why the plan is as it is`);
  const tables = [
    rents(document),
    steps(document),
    wouldTake(document),
    firmness(document),
    staffing(document),
  ];
  const foot = `${document.solves} solves beside the plan's own; ${document.unanswered} questions without a certified answer.`;
  const cautions = document.cautions.map(printParagraph).join('');
  return `${head}\n${sentences}\n${tables.join('')}${printParagraph(foot)}${cautions}`;
}

function rents({ rents: all, names, units }: ExplainedDocument): string {
  const rows = all
    .slice(0, ROWS)
    .map((rent) => [
      limitWords(limitOf(rent), names),
      rent.month,
      figure(rent.oneLess, 2),
      figure(rent.oneMore, 2),
      rent.unit,
      figure(rent.holdsFrom, 1),
      figure(rent.amount, 1),
      figure(rent.holdsTo, 1),
    ]);
  return titled(
    'what binds, and what a unit more or less is worth',
    ['limit', 'month', '<last unit', '<one more', 'by', '<holds from', '<limit', '<holds to'],
    rows,
    all.length,
    `Money of the month's end in ${units.currency}. "-" stands for no end, and for no plan on that side.`,
  );
}

/** Each step's account in the window of its month in which it gains most or loses least. */
function steps({ steps: all, names, units }: ExplainedDocument): string {
  const best = new Map<string, (typeof all)[number]>();
  for (const account of all) {
    const known = best.get(account.step);
    if (known === undefined || account.gain > known.gain) best.set(account.step, account);
  }
  return printSection(
    {
      title: `account of one ${units.mass} going on, where it gains most`,
      table: {
        columns: [
          { head: 'step', kind: 'text' },
          { head: 'month, window', kind: 'text' },
          { head: 'worth out', kind: 'money by mass' },
          { head: 'worth in', kind: 'money by mass' },
          { head: 'power', kind: 'money by mass' },
          { head: 'wear', kind: 'money by mass' },
          { head: 'crew', kind: 'money by mass' },
          { head: 'machine', kind: 'money by mass' },
          { head: 'peak', kind: 'money by mass' },
          { head: 'gain', kind: 'money by mass' },
        ],
        rows: [...best.values()].map((each) => [
          names.steps[each.step],
          `${each.month} ${names.windows[each.window]}`,
          each.worthOut,
          each.worthIn,
          each.power,
          each.wear,
          each.crew,
          each.machine,
          each.peak,
          each.gain,
        ]),
      },
    },
    units,
  );
}

function wouldTake({ wouldTake: all, names, units }: ExplainedDocument): string {
  const open = all.filter(({ rise }) => rise !== undefined && rise > 0);
  const nearest = [...open].sort((a, b) => (a.rise ?? 0) - (b.rise ?? 0));
  const rows = nearest
    .slice(0, ROWS)
    .map(({ what, used, price, rise, comesInAt, forced, yield: other }) => [
      nounOf(what, names),
      what.month,
      figure(used, 1),
      figure(price, 2),
      figure(comesInAt, 2),
      figure(rise, 2),
      forced === undefined ? ABSENT : figure(forced.loss, 2),
      other === undefined
        ? ''
        : `or ${formatFigure(100 * other.share, 2)} % ${names.materials[other.output]} for ${names.materials[other.givesWay]}`,
    ]);
  return titled(
    'what it would take',
    ['left alone', 'month', `<used`, '<price', '<comes in at', '<rise', '<loss if forced', 'or yield'],
    rows,
    open.length,
    `Prices in ${units.currency}/${units.mass}; for a step the rise is what a ${units.mass} would have to cost less. The loss is that of the best plan with one ${units.mass} (or what there is room for) more.`,
  );
}

function nounOf(
  what: ExplainedDocument['wouldTake'][number]['what'],
  names: ExplainedDocument['names'],
): string {
  switch (what.kind) {
    case 'outlet':
      return `${names.outlets[what.outlet]}${what.tier === 0 ? '' : `, step ${what.tier + 1}`}`;
    case 'feed':
      return `more from ${names.feeds[what.feed]}`;
    case 'step':
      return names.steps[what.step];
    case 'contract':
      return `${names.materials[what.material]} to ${names.contracts[what.contract]}`;
  }
}

function firmness({ firmness: all, names, units }: ExplainedDocument): string {
  const rows = all.map(({ number, unit, now, less, more }) => [
    numberWords(number, names),
    spanOf(now),
    figure(less.by, 2),
    changesWords(less.changes, names, units),
    figure(more.by, 2),
    changesWords(more.changes, names, units),
    unit,
  ]);
  return titled(
    'how firm the plan is',
    ['price or cost', '<now', '<may fall by', 'then', '<may rise by', 'then', 'in'],
    rows.slice(0, 2 * ROWS),
    rows.length,
    'Each by itself, by the same in every month; "-" stands for no end.',
  );
}

function staffing({ staffing: changes, names, units }: ExplainedDocument): string {
  if (changes === undefined) return '';
  const rows = changes.asked.map(({ crew, window, month, shifts, oneMore, oneLess, within }) => [
    names.crews[crew],
    names.windows[window],
    month,
    figure(shifts, 0),
    figure(oneLess, 0),
    figure(oneMore, 0),
    figure(within, 0),
  ]);
  return titled(
    'a shift more or less',
    ['crew', 'window', 'month', '<shifts', '<last shift', '<one more', '<within'],
    rows,
    rows.length + changes.left,
    `Present value in ${units.currency}, each solved anew with all other staffing free.`,
  );
}

/** A table of texts; heads that start with < stand right. */
function titled(
  title: string,
  heads: readonly string[],
  rows: readonly (readonly string[])[],
  all: number,
  note: string,
): string {
  if (rows.length === 0) return '';
  const columns = heads.map((head) =>
    head.startsWith('<')
      ? ({ head: head.slice(1), align: 'right' } as const)
      : ({ head, align: 'left' } as const),
  );
  const left = all > rows.length ? printParagraph(`${all - rows.length} more are in the JSON document.`) : '';
  const cells = rows.map((row) => row.map(printable));
  return `${title.toUpperCase()}\n${textTable(columns, cells)}${left}${printParagraph(note)}\n`;
}

function figure(value: number | undefined, digits: number): string {
  return value === undefined ? ABSENT : formatFigure(value, digits);
}

function spanOf(now: readonly number[]): string {
  const [least, most] = [Math.min(...now), Math.max(...now)];
  return least === most ? formatFigure(least, 2) : `${formatFigure(least, 2)}–${formatFigure(most, 2)}`;
}

function limitOf({ limit, window }: DocumentRent): LimitKey {
  return { ...limit, month: 0, ...(window === undefined ? {} : { window }) } as LimitKey;
}
