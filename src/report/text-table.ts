import { displayWidth, printable } from './printable.js';

/** A column of a printed table. Figures stand right, words left; words are broken into lines where there is no room. */
export interface TextColumn {
  readonly head: string;
  /** Printed once, under the head. */
  readonly unit?: string;
  readonly align: 'left' | 'right';
}

/** One text a column, or a rule across the table. */
export type TextRow = readonly string[] | 'rule';

/** Columns of the terminal that every report is made for. */
export const REPORT_WIDTH = 100;

const GAP = '  ';
const NARROWEST = 8;
const SHORT_HEAD = 14;

/**
 * A table in plain characters, without colour, each line ended by a line feed and without spaces at its end.
 * Columns of words give way, the widest first, where the table would be wider than `width`. Without heads
 * and units there is no head line.
 *
 * @example textTable([{ head: 'machine', align: 'left' }, { head: 'hours', unit: 'h', align: 'right' }], [['mill', '120.0']])
 */
export function textTable(
  columns: readonly TextColumn[],
  rows: readonly TextRow[],
  width: number = REPORT_WIDTH,
): string {
  const safe = rows.map((row) => (row === 'rule' ? row : row.map(printable)));
  const widths = fitWidths(columns, safe, width);
  const rule = '-'.repeat(across(widths));
  const aligns = columns.map((column) => column.align);
  const head = headLines(columns, widths).map((cells) => printLine(cells, widths, aligns));
  const lines = head.some((line) => line !== '') ? [...head, rule] : [];
  for (const row of safe) {
    if (row === 'rule') lines.push(rule);
    else for (const cells of rowLines(row, widths)) lines.push(printLine(cells, widths, aligns));
  }
  return lines.map((line) => `${line}\n`).join('');
}

/** Breaks words into lines of at most `width`; a word that is longer is cut. */
export function wrapText(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ').flatMap((whole) => cut(whole, width))) {
    if (line === '') line = word;
    else if (displayWidth(line) + 1 + displayWidth(word) <= width) line += ` ${word}`;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
}

/** Heads take two lines and units one where there is room, else a line a word; then columns of words give way. */
function fitWidths(columns: readonly TextColumn[], rows: readonly TextRow[], width: number): number[] {
  const roomy = naturalWidths(columns, rows, twoLineWidth, displayWidth);
  if (across(roomy) <= width) return roomy;
  const widths = naturalWidths(columns, rows, longestWord, (unit) => longestWord(breakable(unit)));
  for (let excess = across(widths) - width; excess > 0; excess--) {
    const widest = widestWords(columns, widths);
    if (widest === undefined) break;
    widths[widest]--;
  }
  return widths;
}

function naturalWidths(
  columns: readonly TextColumn[],
  rows: readonly TextRow[],
  headWidth: (head: string) => number,
  unitWidth: (unit: string) => number,
): number[] {
  return columns.map(({ head, unit = '' }, i) => {
    const cells = rows.map((row) => (row === 'rule' ? 0 : displayWidth(row[i])));
    return Math.max(...cells, headWidth(head), unitWidth(unit));
  });
}

function longestWord(head: string): number {
  return Math.max(...head.split(' ').map(displayWidth));
}

/** A short head stays whole; of a longer one the least width in which it takes no more than two lines. */
function twoLineWidth(head: string): number {
  if (displayWidth(head) <= SHORT_HEAD) return displayWidth(head);
  const words = head.split(' ');
  const widths = words.map((_, cut) =>
    Math.max(displayWidth(words.slice(0, cut).join(' ')), displayWidth(words.slice(cut).join(' '))),
  );
  return Math.min(...widths);
}

function across(widths: readonly number[]): number {
  return sum(widths) + GAP.length * (widths.length - 1);
}

function widestWords(columns: readonly TextColumn[], widths: readonly number[]): number | undefined {
  let widest: number | undefined;
  columns.forEach((column, i) => {
    if (column.align === 'right' || widths[i] <= NARROWEST) return;
    if (widest === undefined || widths[i] > widths[widest]) widest = i;
  });
  return widest;
}

/** Heads stand on the bottom line of their block, units in a block of their own under it. */
function headLines(columns: readonly TextColumn[], widths: readonly number[]): string[][] {
  const heads = columns.map((column, i) => wrapText(column.head, widths[i]));
  const height = Math.max(...heads.map((lines) => lines.length));
  const lines = Array.from({ length: height }, (_, row) =>
    heads.map((head) => head[row - (height - head.length)] ?? ''),
  );
  const units = columns.map(({ unit = '' }, i) => (displayWidth(unit) <= widths[i] ? unit : breakable(unit)));
  return units.some((unit) => unit !== '') ? [...lines, ...rowLines(units, widths)] : lines;
}

/** A unit that may be broken after its stroke: 'EUR/ short ton'. */
function breakable(unit: string): string {
  return unit.replaceAll('/', '/ ');
}

function rowLines(row: readonly string[], widths: readonly number[]): string[][] {
  const cells = row.map((text, i) => wrapText(text, widths[i]));
  const height = Math.max(...cells.map((lines) => lines.length));
  return Array.from({ length: height }, (_, line) => cells.map((lines) => lines[line] ?? ''));
}

function printLine(
  cells: readonly string[],
  widths: readonly number[],
  aligns: readonly TextColumn['align'][],
): string {
  const padded = cells.map((text, i) => {
    const spaces = ' '.repeat(Math.max(0, widths[i] - displayWidth(text)));
    return aligns[i] === 'right' ? spaces + text : text + spaces;
  });
  return padded.join(GAP).trimEnd();
}

/** Pieces of a word that is too long, cut after a hyphen where there is one. */
function cut(word: string, width: number): string[] {
  if (displayWidth(word) <= width) return [word];
  const pieces: string[] = [];
  let piece = '';
  for (const character of word) {
    if (piece !== '' && displayWidth(piece + character) > width) {
      const hyphen = piece.lastIndexOf('-') + 1;
      const end = hyphen > 0 ? hyphen : piece.length;
      pieces.push(piece.slice(0, end));
      piece = piece.slice(end);
    }
    piece += character;
  }
  return [...pieces, piece];
}

function sum(figures: readonly number[]): number {
  return figures.reduce((total, figure) => total + figure, 0);
}
