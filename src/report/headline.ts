import { minorDigits } from './currency.js';
import { formatFigure, formatKind, formatMoney } from './figure.js';
import type { PlannedDocument } from './plan-document.js';
import { printParagraph } from './section.js';
import { textTable } from './text-table.js';

/** Title, margin, present value and the proof in one line. */
export function printHeadline(document: PlannedDocument): string {
  const { title, units, horizon, margin, presentValue, marginByMass, total } = document;
  const lastMonth = document.months[document.months.length - 1].month;
  const span = horizon.months === 1 ? horizon.firstMonth : `${horizon.firstMonth} to ${lastMonth}`;
  const money = minorDigits(units.currency);
  const figures = [
    ['margin', formatFigure(margin, money), units.currency],
    ['present value', formatFigure(presentValue, money), units.currency],
    ['received', formatKind(total.received, 'mass', units), units.mass],
    ...(marginByMass === undefined
      ? []
      : [[`margin per ${units.mass} received`, formatFigure(marginByMass, money), units.currency]]),
  ];
  const columns = (['left', 'right', 'left'] as const).map((align) => ({ head: '', align }));
  return [
    printParagraph(`${title}: plan for ${span}`),
    '\n',
    textTable(columns, figures),
    '\n',
    ...proofLines(document).map(printParagraph),
  ].join('');
}

/** The proof in a sentence or two. Gaps in money are rounded up, so that what is printed holds. */
export function proofLines(document: PlannedDocument): string[] {
  const { certificate, wholeNumbers, units, status, statement } = document;
  const lines: string[] = [];
  if (status === 'stopped') lines.push('Stopped early: this is the best plan found by then.');
  const bound = wholeNumbers === undefined ? certificate.bound : wholeNumbers.provedBound;
  lines.push(
    bound === undefined
      ? "The plan keeps every limit, checked against the scenario's own figures; how much more another plan could earn was not proved."
      : `No plan earns more than ${above(bound)} above this (present value); checked against the scenario's own figures.`,
  );
  if (wholeNumbers?.claimedBound !== undefined) {
    lines.push(
      `With whole shifts and windows counted, the engine's own bound is ${above(wholeNumbers.claimedBound)} above this: its word, not proved here.`,
    );
  }
  return lines;

  function above(best: number): string {
    const digits = minorDigits(units.currency);
    const more = Math.ceil(Math.max(0, best - certificate.objective) * 10 ** digits) / 10 ** digits;
    const percent = statement.scale > 0 ? Math.ceil((more / statement.scale) * 1e6) / 1e4 : 0;
    return `${formatMoney(more, units.currency)} (${formatFigure(percent, 4)} % of the money that moves)`;
  }
}
