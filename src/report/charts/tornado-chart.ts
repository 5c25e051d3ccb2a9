import { bottomAxis, type Plot, printerFor, scaleOver } from './axes.js';
import { CHART_WIDTH, FILLS, type FrameText, frame, titleHeight } from './frame.js';
import { element, label, line } from './svg.js';

export interface TornadoChart extends FrameText {
  readonly xTitle: string;
  readonly base: number;
  /** Widest first. */
  readonly bars: readonly TornadoChartBar[];
}

export interface TornadoChartBar {
  readonly name: string;
  /** The value at the number's low and at its high; absent where there is none. */
  readonly low?: number;
  readonly high?: number;
  readonly lowLabel: string;
  readonly highLabel: string;
}

const ROW = 46;
/** Bars that are drawn; the others move the value by less. */
const MOST = 15;

/** Bars around the base: hatched one way where the number is low, the other way where it is high. */
export function tornadoChart(chart: TornadoChart): string {
  const bars = chart.bars.slice(0, MOST);
  const more = chart.bars.length - bars.length;
  const top = titleHeight(chart.title) + 30;
  const plot: Plot = {
    left: 90,
    right: CHART_WIDTH - 90,
    top,
    bottom: top + ROW * Math.max(1, bars.length),
  };
  const values = bars.flatMap(({ low, high }) => [low, high].filter((value) => value !== undefined));
  const x = scaleOver([chart.base, ...values], [plot.left, plot.right]);
  const height = plot.bottom + (more > 0 ? 70 : 52);
  const print = printerFor((x.domain()[1] - x.domain()[0]) / 1000);
  return frame(chart, height, [
    ...bottomAxis(x, plot, chart.xTitle),
    ...bars.flatMap((bar, i) => drawn(bar, plot.top + ROW * i, x, chart.base)),
    line(x(chart.base), plot.top - 8, x(chart.base), plot.bottom, 'guide'),
    label(`as it is: ${print(chart.base)}`, x(chart.base), plot.top - 12, { 'text-anchor': 'middle' }),
    ...(more > 0
      ? [
          label(`${more} more, which move it by less or have no plan, stand in the table.`, 12, height - 8, {
            class: 'note',
          }),
        ]
      : []),
  ]);
}

function drawn(bar: TornadoChartBar, y: number, x: (value: number) => number, base: number): string[] {
  const sides = [
    { value: bar.low, text: bar.lowLabel, fill: FILLS.falling },
    { value: bar.high, text: bar.highLabel, fill: FILLS.rising },
  ];
  const isSameSide =
    bar.low !== undefined && bar.high !== undefined && (bar.low - base) * (bar.high - base) > 0;
  return [
    label(bar.name, 12, y + 14),
    ...sides.flatMap(({ value, text, fill }, i) => {
      if (value === undefined) {
        return [
          label(`${text}: no plan`, i === 0 ? 12 : CHART_WIDTH - 12, y + 30, {
            'text-anchor': i === 0 ? 'start' : 'end',
            class: 'note',
          }),
        ];
      }
      const [from, to] = [Math.min(x(value), x(base)), Math.max(x(value), x(base))];
      const tall = isSameSide ? 9 : 18;
      const at = y + 20 + (isSameSide && i === 1 ? 9 : 0);
      const isLeft = value < base || (value === base && i === 0);
      // Of two bars on one side the shorter's label would lie on the longer: it stands across the base.
      const other = sides[1 - i].value ?? base;
      const isShorter = isSameSide && Math.abs(value - base) < Math.abs(other - base);
      const isLabelLeft = isShorter ? !isLeft : isLeft;
      return [
        element('rect', {
          class: 'bar',
          x: from,
          y: at,
          width: Math.max(0.5, to - from),
          height: tall,
          fill,
        }),
        label(text, isLabelLeft ? from - 4 : to + 4, at + tall / 2 + 4, {
          'text-anchor': isLabelLeft ? 'end' : 'start',
        }),
      ];
    }),
  ];
}
