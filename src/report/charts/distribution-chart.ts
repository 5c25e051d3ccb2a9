import { bottomAxis, leftAxis, type Plot, printerFor, scaleOver } from './axes.js';
import { CHART_WIDTH, FILLS, type FrameText, frame, titleHeight } from './frame.js';
import { element, label, line } from './svg.js';

export interface DistributionChart extends FrameText {
  readonly xTitle: string;
  readonly yTitle: string;
  readonly values: readonly number[];
  /** Places on the axis with a name, such as the median. */
  readonly marks: readonly { readonly at: number; readonly label: string }[];
  /** Bars wholly below it are hatched. */
  readonly level?: number;
}

const HEIGHT = 380;
const MOST_BARS = 40;

/** How often a figure falls where: bars of equal width. */
export function distributionChart(chart: DistributionChart): string {
  const { values, marks, level } = chart;
  const plot: Plot = {
    left: 64,
    right: CHART_WIDTH - 36,
    top: titleHeight(chart.title) + 26 + 16 * Math.min(3, marks.length),
    bottom: HEIGHT - 46,
  };
  const x = scaleOver(values.length > 0 ? values : [0], [plot.left, plot.right]);
  const [low, high] = x.domain();
  const bars = Math.max(1, Math.min(MOST_BARS, Math.ceil(Math.sqrt(values.length))));
  const width = (high - low) / bars;
  const counts = new Array<number>(bars).fill(0);
  for (const value of values) counts[Math.min(bars - 1, Math.floor((value - low) / width))] += 1;
  const y = scaleOver(counts, [plot.bottom, plot.top], true);
  const print = printerFor((high - low) / 1000);
  return frame(chart, HEIGHT, [
    ...leftAxis(y, plot, chart.yTitle),
    ...bottomAxis(x, plot, chart.xTitle),
    ...counts.map((count, i) =>
      element('rect', {
        class: 'bar',
        x: x(low + i * width),
        y: y(count),
        width: x(low + width) - x(low),
        height: Math.max(0, y(0) - y(count)),
        fill: level !== undefined && low + (i + 1) * width <= level ? FILLS.falling : FILLS.plain,
      }),
    ),
    ...marks.flatMap((mark, i) => {
      const at = plot.top - 12 - 16 * (i % 3);
      return [
        line(x(mark.at), at + 4, x(mark.at), plot.bottom, 'guide'),
        label(`${mark.label} ${print(mark.at)}`, x(mark.at), at, {
          'text-anchor': x(mark.at) > 320 ? 'end' : 'start',
        }),
      ];
    }),
  ]);
}
