import { leftAxis, type Plot, printerFor, scaleOver } from './axes.js';
import { CHART_WIDTH, FILLS, type FrameText, frame, titleHeight } from './frame.js';
import { element, label, line } from './svg.js';

export interface BridgeChart extends FrameText {
  readonly yTitle: string;
  readonly from: { readonly name: string; readonly value: number };
  readonly to: { readonly name: string; readonly value: number };
  readonly steps: readonly { readonly name: string; readonly amount: number }[];
}

const HEIGHT = 380;

/** From one figure to another: solid bars at the ends, gains hatched upwards and losses downwards between them. */
export function bridgeChart(chart: BridgeChart): string {
  const plot: Plot = {
    left: 84,
    right: CHART_WIDTH - 16,
    top: titleHeight(chart.title) + 26,
    bottom: HEIGHT - 44,
  };
  const levels = chart.steps.reduce<number[]>(
    (sums, { amount }) => sums.concat(sums[sums.length - 1] + amount),
    [chart.from.value],
  );
  const y = scaleOver([...levels, chart.to.value], [plot.bottom, plot.top], true);
  const print = printerFor((y.domain()[1] - y.domain()[0]) / 1000);
  const count = chart.steps.length + 2;
  const width = (plot.right - plot.left) / count;
  const bar = (i: number, low: number, high: number, fill: string) =>
    element('rect', {
      class: 'bar',
      x: plot.left + width * i + 6,
      y: y(Math.max(low, high)),
      width: width - 12,
      height: Math.max(0.5, Math.abs(y(low) - y(high))),
      fill,
    });
  const named = (i: number, name: string, value: number, text: string) => [
    label(name, plot.left + width * (i + 0.5), plot.bottom + 18 + (i % 2) * 14, { 'text-anchor': 'middle' }),
    label(text, plot.left + width * (i + 0.5), y(value) - 5, { 'text-anchor': 'middle' }),
  ];
  return frame(chart, HEIGHT, [
    ...leftAxis(y, plot, chart.yTitle),
    bar(0, 0, chart.from.value, FILLS.solid),
    ...named(0, chart.from.name, Math.max(0, chart.from.value), print(chart.from.value)),
    ...chart.steps.flatMap(({ name, amount }, i) => [
      line(
        plot.left + width * (i + 1) - 6,
        y(levels[i]),
        plot.left + width * (i + 1) + 6,
        y(levels[i]),
        'axis',
      ),
      bar(i + 1, levels[i], levels[i + 1], amount < 0 ? FILLS.falling : FILLS.rising),
      ...named(i + 1, name, Math.max(levels[i], levels[i + 1]), `${amount > 0 ? '+' : ''}${print(amount)}`),
    ]),
    bar(count - 1, 0, chart.to.value, FILLS.solid),
    ...named(count - 1, chart.to.name, Math.max(0, chart.to.value), print(chart.to.value)),
    line(plot.left, y(0), plot.right, y(0), 'zero'),
  ]);
}
