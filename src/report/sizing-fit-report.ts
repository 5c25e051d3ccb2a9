import type { SizingFit } from '../plant/fit-sizing.js';
import { formatFigure } from './figure.js';
import { figures, percent, printPlantSection } from './plant/plant-section.js';
import { printParagraph } from './section.js';

/** A fitted distribution of sizes in print: d63 and n as a scenario takes them, and how well they fit. */
export function sizingFitReport(fit: SizingFit): string {
  const { d63, n, rms, worst, points } = fit;
  return [
    printParagraph(`d63 ${formatFigure(d63, 4)} mm, n ${formatFigure(n, 4)}`),
    printParagraph('F(d) = 1 − exp(−(d / d63)^n), least squares in F.'),
    printParagraph(
      `Root of the mean squared difference ${percent(rms)} % of the mass; the largest ` +
        `${percent(worst.difference)} % at ${formatFigure(worst.opening, 3)} mm (measured less fitted).`,
    ),
    '\n',
    printPlantSection({
      title: 'Passing',
      columns: [figures('opening', 'mm'), figures('measured', '%'), figures('fitted', '%')],
      rows: points.map(({ opening, passing, fitted }) => [
        formatFigure(opening, 3),
        percent(passing),
        percent(fitted),
      ]),
    }),
  ].join('');
}
