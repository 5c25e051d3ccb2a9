import { scaleLinear } from 'd3-scale';
import { formatFigure } from '../figure.js';
import { hatching } from './hatching.js';
import { lines, spread } from './labels.js';
import type { LadderChart } from './ladder-chart.js';
import { columnParts, ladderColumns } from './ladder-columns.js';
import { coordinate, element, escaped, label, line } from './svg.js';

const WIDTH = 360;
const PLOT = { left: 176, right: 340, top: 34 };
/** Height of a label's two lines. */
const LABEL = 34;

/**
 * The ladder by weight for a narrow screen: the same turned upright, coarse above and fine below. A rung is as high
 * as the whole tire that stops there, and as long as a mass unit of it brings.
 */
export function uprightLadder({ figures, units, waysOn, title, description }: LadderChart): string {
  const columns = ladderColumns(figures, waysOn);
  const bottom = PLOT.top + Math.max(320, columns.length * LABEL);
  const y = scaleLinear([0, Math.max(1e-9, ...columns.map(({ to }) => to))], [PLOT.top, bottom]);
  const lengths = columns.flatMap(({ height, fee }) => [height, fee, 0]);
  const x = scaleLinear([Math.min(...lengths), Math.max(...lengths, 1e-9)], [PLOT.left, PLOT.right]).nice(3);
  const places = spread(
    columns.map(({ from, to }) => (y(from) + y(to)) / 2),
    [PLOT.top, bottom],
    LABEL,
  );
  return element(
    'svg',
    { class: 'ladder upright', role: 'img', viewBox: `0 0 ${WIDTH} ${bottom + 12}`, 'aria-label': title },
    element('desc', {}, escaped(description)),
    element('defs', {}, ...hatching('upright')),
    label(`${units.mass} that stop here`, 2, 12, { class: 'small' }),
    label(`${units.currency}/${units.mass}`, PLOT.right, 12, { class: 'small', 'text-anchor': 'end' }),
    ...x
      .ticks(3)
      .flatMap((tick) => [
        line(x(tick), PLOT.top, x(tick), bottom, 'grid'),
        label(formatFigure(tick, 0), x(tick), PLOT.top - 6, { 'text-anchor': 'middle', class: 'small' }),
      ]),
    ...columns.flatMap((column) =>
      columnParts(column).map(({ low, high, name }) =>
        element('rect', {
          class: name,
          x: Math.min(x(low), x(high)),
          y: y(column.from),
          width: Math.abs(x(high) - x(low)),
          height: Math.max(0.5, y(column.to) - y(column.from)),
        }),
      ),
    ),
    line(x(0), PLOT.top, x(0), bottom, 'base'),
    ...columns.flatMap(({ name, from, to, height }, i) => [
      label(lines(name, 27, 1)[0], 2, places[i] - 3, { class: 'small' }),
      label(`${formatFigure(to - from, 1)} at ${formatFigure(height, 2)}`, 2, places[i] + 11, {
        class: 'strong',
      }),
      element('path', {
        class: 'leader',
        d: `M150,${coordinate(places[i])}L${PLOT.left - 8},${coordinate((y(from) + y(to)) / 2)}H${coordinate(x(0))}`,
      }),
    ]),
  );
}
