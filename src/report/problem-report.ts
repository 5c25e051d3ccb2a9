import type { Problem } from '../issue/problem.js';
import { printable } from './printable.js';
import { REPORT_WIDTH, wrapText } from './text-table.js';

/** A problem for people: where, what is wrong, what to do. */
export function printProblem({ pointer, message, remedy }: Problem): string {
  const place = printable(pointer === '' ? 'the document' : pointer);
  const lines = [message, remedy].flatMap((text) => wrapText(printable(text), REPORT_WIDTH - 2));
  return `${place}\n${lines.map((line) => `  ${line}\n`).join('')}`;
}
