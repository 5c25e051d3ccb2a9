import { area } from 'd3-shape';
import { bottomAxis, leftAxis, type Plot, scaleFrom, scaleOver } from './axes.js';
import { CHART_WIDTH, FILLS, type FrameText, frame, titleHeight } from './frame.js';
import { element, label, line } from './svg.js';

export interface StackedChart extends FrameText {
  readonly xTitle: string;
  readonly yTitle: string;
  /** Rising. */
  readonly xs: readonly number[];
  /** The lowest first; figures below 0 are stacked downwards. As many as there are fills. */
  readonly layers: readonly StackedLayer[];
}

export interface StackedLayer {
  readonly name: string;
  /** One for each of `xs`. */
  readonly values: readonly number[];
}

/** Fills that differ without colour, in the order of layers. */
const LAYER_FILLS = [FILLS.solid, FILLS.rising, FILLS.plain, FILLS.falling, FILLS.dots, FILLS.crossed];

export const MOST_LAYERS = LAYER_FILLS.length;

const PLOT_HEIGHT = 230;
const KEY_LINE = 18;

/** Layers on top of each other over a number. */
export function stackedChart(chart: StackedChart): string {
  const { xs, layers } = chart;
  const top = titleHeight(chart.title) + 26;
  const plot: Plot = { left: 84, right: CHART_WIDTH - 36, top, bottom: top + PLOT_HEIGHT };
  const bands = stacked(layers, xs.length);
  const x = scaleFrom(xs[0], xs[xs.length - 1], [plot.left, plot.right]);
  const y = scaleOver(bands.flat(2), [plot.bottom, plot.top], true);
  const shape = area<readonly [number, number]>()
    .x((_, i) => x(xs[i]))
    .y0(([low]) => y(low))
    .y1(([, high]) => y(high))
    .digits(2);
  const height = plot.bottom + 52 + KEY_LINE * Math.ceil(layers.length / 2);
  return frame(chart, height, [
    ...leftAxis(y, plot, chart.yTitle),
    ...bands.map((band, i) =>
      element('path', { class: 'layer', d: shape(band) ?? '', fill: LAYER_FILLS[i % MOST_LAYERS] }),
    ),
    ...bottomAxis(x, plot, chart.xTitle),
    line(plot.left, y(0), plot.right, y(0), 'zero'),
    ...layers.flatMap(({ name }, i) => keyEntry(name, i, plot.bottom + 46)),
  ]);
}

/** From where to where each layer goes at each place: those above 0 upwards, those below 0 downwards. */
function stacked(layers: readonly StackedLayer[], places: number): (readonly [number, number])[][] {
  const [above, below] = [new Array<number>(places).fill(0), new Array<number>(places).fill(0)];
  return layers.map(({ values }) =>
    values.map((value, i) => {
      const heap = value >= 0 ? above : below;
      const from = heap[i];
      heap[i] += value;
      return [from, heap[i]] as const;
    }),
  );
}

function keyEntry(name: string, i: number, top: number): string[] {
  const [left, y] = [84 + 270 * (i % 2), top + KEY_LINE * Math.floor(i / 2)];
  return [
    element('rect', {
      class: 'layer',
      x: left,
      y: y,
      width: 24,
      height: 11,
      fill: LAYER_FILLS[i % MOST_LAYERS],
    }),
    label(name, left + 31, y + 10),
  ];
}
