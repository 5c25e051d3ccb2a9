import { line as pathOf } from 'd3-shape';
import { bottomAxis, leftAxis, type Plot, scaleFrom, scaleOver } from './axes.js';
import { CHART_WIDTH, FILLS, type FrameText, frame, titleHeight } from './frame.js';
import { coordinate, element, label, line } from './svg.js';

export interface CurveChart extends FrameText {
  /** With the unit, such as 'Tipping fee (EUR/tonne)'. */
  readonly xTitle: string;
  readonly yTitle: string;
  /** Up to three lines; each is named at its right end where there is more than one. */
  readonly lines: readonly ChartLine[];
  /** Parts of the x axis with something to say: hatched, with a short label. */
  readonly bands?: readonly { readonly from: number; readonly to: number; readonly label: string }[];
  /** A place on the x axis, such as where the scenario stands. */
  readonly guides?: readonly { readonly x: number; readonly label: string }[];
  readonly note?: string;
}

export interface ChartLine {
  readonly name: string;
  readonly points: readonly ChartPoint[];
}

export interface ChartPoint {
  readonly x: number;
  readonly y: number;
  /** Breakpoints are marked with a ring. */
  readonly isMarked?: boolean;
  /** No line leads to the next point. */
  readonly isLast?: boolean;
}

const HEIGHT = 380;
const STYLES = ['curve', 'curve second', 'curve third'];

/** One or more lines over a number, as an SVG document. */
export function curveChart(chart: CurveChart): string {
  const { lines, bands = [], guides = [] } = chart;
  const plot: Plot = {
    left: 84,
    right: CHART_WIDTH - 36,
    top: titleHeight(chart.title) + 26,
    bottom: HEIGHT - 62,
  };
  const points = lines.flatMap((one) => one.points);
  const xs = [...points.map(({ x }) => x), ...bands.flatMap(({ from, to }) => [from, to])];
  const x = scaleFrom(Math.min(...xs), Math.max(...xs), [plot.left, plot.right]);
  const y = scaleOver(points.length > 0 ? points.map((point) => point.y) : [0], [plot.bottom, plot.top]);
  return frame(chart, HEIGHT + legendHeight(lines), [
    ...bands.map(({ from, to }) =>
      element('rect', {
        x: x(from),
        y: plot.top,
        width: Math.max(1, x(to) - x(from)),
        height: plot.bottom - plot.top,
        fill: FILLS.dots,
      }),
    ),
    ...leftAxis(y, plot, chart.yTitle),
    ...bottomAxis(x, plot, chart.xTitle),
    ...bands.map((band) => bandLabel(band, x, plot)),
    ...guides
      .filter((guide) => guide.x >= x.domain()[0] && guide.x <= x.domain()[1])
      .flatMap((guide) => [
        line(x(guide.x), plot.top, x(guide.x), plot.bottom, 'guide'),
        label(guide.label, x(guide.x), plot.top - 4, { 'text-anchor': anchorAt(x(guide.x)) }),
      ]),
    ...lines.flatMap((one, i) => drawn(one, STYLES[i % STYLES.length], x, y)),
    ...(lines.length > 1 ? legend(lines) : []),
    ...(chart.note === undefined ? [] : [label(chart.note, 12, HEIGHT - 8, { class: 'note' })]),
  ]);
}

type Position = (value: number) => number;

function drawn({ points }: ChartLine, style: string, x: Position, y: Position): string[] {
  const path = pathOf<ChartPoint>()
    .x((point) => x(point.x))
    .y((point) => y(point.y));
  const runs: ChartPoint[][] = [[]];
  for (const point of points) {
    runs[runs.length - 1].push(point);
    if (point.isLast === true) runs.push([]);
  }
  return [
    ...runs
      .filter((run) => run.length > 1)
      .map((run) => element('path', { class: style, d: path.digits(2)(run) ?? '' })),
    ...points
      .filter(({ isMarked }) => isMarked === true)
      .map((point) => element('circle', { class: 'mark', cx: x(point.x), cy: y(point.y), r: 3.5 })),
  ];
}

function bandLabel(band: { from: number; to: number; label: string }, x: Position, plot: Plot): string {
  const middle = Math.min(plot.right - 60, Math.max(plot.left + 60, (x(band.from) + x(band.to)) / 2));
  return element(
    'g',
    {},
    element('rect', {
      x: middle - 3.4 * band.label.length,
      y: plot.bottom - 26,
      width: 6.8 * band.label.length,
      height: 16,
      fill: '#fff',
    }),
    label(band.label, middle, plot.bottom - 14, { 'text-anchor': 'middle' }),
  );
}

/** Names of lines, side by side, or under each other where they are long. */
function legend(lines: readonly ChartLine[]): string[] {
  const areLong = hasLongNames(lines);
  return lines.flatMap(({ name }, i) => {
    const [at, y] = areLong ? [84, HEIGHT - 8 + LEGEND_LINE * i] : [84 + i * 180, HEIGHT - 8];
    return [
      element('path', { class: STYLES[i % STYLES.length], d: `M${coordinate(at)},${y - 4}h28` }),
      label(name, at + 34, y),
    ];
  });
}

function legendHeight(lines: readonly ChartLine[]): number {
  return hasLongNames(lines) ? LEGEND_LINE * (lines.length - 1) : 0;
}

/** Letters that fit beside another name. */
const SHORT_NAME = 20;
const LEGEND_LINE = 17;

function hasLongNames(lines: readonly ChartLine[]): boolean {
  return lines.length > 1 && lines.some(({ name }) => name.length > SHORT_NAME);
}

function anchorAt(at: number): 'start' | 'middle' | 'end' {
  if (at < 130) return 'start';
  return at > CHART_WIDTH - 90 ? 'end' : 'middle';
}
