import { displacedChart as chartOfSources } from '../offer/displaced-chart.js';
import type { JudgedDocument } from '../offer-document.js';
import type { Markup } from './markup.js';
import { chartFigure } from './question-body.js';

/** Where the tonnes of the offer come from, stacked by outlet. Undefined where it is not known. */
export function displacedChart(document: JudgedDocument): Markup | undefined {
  const svg = chartOfSources(document);
  return svg === undefined ? undefined : chartFigure(svg, 'tonnes taken from other business by volume');
}
