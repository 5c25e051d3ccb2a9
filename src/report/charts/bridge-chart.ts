import { leftAxis, type Plot, printerFor, type Scale, scaleOver } from './axes.js';
import { CHART_WIDTH, FILLS, type FrameText, frame, titleHeight } from './frame.js';
import { coordinate, element, label, line } from './svg.js';

export interface BridgeChart extends FrameText {
  readonly yTitle: string;
  readonly from: { readonly name: string; readonly value: number };
  readonly to: { readonly name: string; readonly value: number };
  readonly steps: readonly { readonly name: string; readonly amount: number }[];
}

const HEIGHT = 396;

/** From one figure to another: solid bars at the ends, gains hatched upwards and losses downwards between them. */
export function bridgeChart(chart: BridgeChart): string {
  const plot: Plot = {
    left: 84,
    right: CHART_WIDTH - 16,
    top: titleHeight(chart.title) + 26,
    bottom: HEIGHT - 60,
  };
  const levels = chart.steps.reduce<number[]>(
    (sums, { amount }) => sums.concat(sums[sums.length - 1] + amount),
    [chart.from.value],
  );
  const y = scaleOf([...levels, chart.to.value], plot);
  const foot = Math.max(0, y.domain()[0]);
  const isCut = foot > 0;
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
    bar(0, foot, chart.from.value, FILLS.solid),
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
    bar(count - 1, foot, chart.to.value, FILLS.solid),
    ...named(count - 1, chart.to.name, Math.max(0, chart.to.value), print(chart.to.value)),
    line(plot.left, y(foot), plot.right, y(foot), isCut ? 'axis' : 'zero'),
    ...(isCut
      ? [
          ...[0, count - 1].map((i) => cut(plot.left + width * i + 6, width - 12, plot.bottom - 14)),
          label(`The axis begins at ${print(foot)}, not at 0.`, 12, HEIGHT - 6, { class: 'note' }),
        ]
      : []),
  ]);
}

/** How small the steps may be against the ends before the axis begins elsewhere than at 0. */
const SMALL_STEPS = 0.25;

function scaleOf(levels: readonly number[], { bottom, top }: Plot): Scale {
  const [low, high] = [Math.min(...levels), Math.max(...levels)];
  const room = high - low;
  const isSmall = low > 0 && room > 0 && room < SMALL_STEPS * high;
  return isSmall ? scaleOver([low - room, high], [bottom, top]) : scaleOver(levels, [bottom, top], true);
}

/** Two slanted lines across a bar that does not begin at 0. */
function cut(x: number, width: number, y: number): string {
  const slanted = `M${coordinate(x - 4)},${coordinate(y + 4)}l${coordinate(width + 8)},-8`;
  return element('path', { class: 'cut', d: `${slanted}v5l${coordinate(-width - 8)},8z` });
}
