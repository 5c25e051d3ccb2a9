import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { formatFigure, type ReportUnits } from '../figure.js';
import type { LadderFigures } from '../ladder-figures.js';
import { hatching } from './hatching.js';
import { lines, spread } from './labels.js';
import { columnParts, type LadderColumn, ladderColumns } from './ladder-columns.js';
import { coordinate, element, escaped, label, line } from './svg.js';

/** The way on from a rung: the step that takes it further, and what stands in its way. */
export interface WayOn {
  readonly step: string;
  readonly machine: string;
  /** Of the machine's hours, 0 to 1. */
  readonly use?: number;
  /** What one more mass unit would bring by going on, before the machine's hours are paid for. */
  readonly gain?: number;
  /** Of one more machine-hour. */
  readonly rent?: number;
}

export interface LadderChart {
  readonly figures: LadderFigures;
  readonly units: ReportUnits;
  /** By material. */
  readonly waysOn: ReadonlyMap<string, WayOn>;
  readonly title: string;
  readonly description: string;
}

type Scale = ScaleLinear<number, number>;

const WIDTH = 1000;
const PLOT = { left: 64, right: 988, top: 104, bottom: 372 };
const BELOW = 40;
const LINE = 12;
/** Width of a label, where there is room. */
const LABEL = 72;

/**
 * The ladder by weight: a column for each rung from coarse to fine, as wide as the whole tire that stops there and
 * as high as a mass unit of it brings, so that area is money. By-products stand apart, waste hangs below the line.
 */
export function ladderChart(chart: LadderChart): string {
  const columns = ladderColumns(chart.figures, chart.waysOn);
  const x = scaleLinear([0, Math.max(1e-9, ...columns.map(({ to }) => to))], [PLOT.left, PLOT.right]);
  const heights = columns.flatMap(({ height, fee }) => [height, fee, 0]);
  const y = scaleLinear([Math.min(...heights), Math.max(...heights, 1e-9)], [PLOT.bottom, PLOT.top]).nice(5);
  const room = Math.min(LABEL, (PLOT.right - PLOT.left) / columns.length);
  const places = spread(
    columns.map(({ from, to }) => (x(from) + x(to)) / 2),
    [PLOT.left, PLOT.right],
    room,
  );
  const withWays = columns.some(({ wayOn }) => wayOn !== undefined);
  const height = PLOT.bottom + BELOW + (withWays ? 118 : 30);
  return element(
    'svg',
    { class: 'ladder', role: 'img', viewBox: `0 0 ${WIDTH} ${height}`, 'aria-label': chart.title },
    element('desc', {}, escaped(chart.description)),
    element('defs', {}, ...hatching('ladder')),
    ...scaleLines(y, chart.units),
    ...columns.map((column) => columnShape(column, x, y)),
    line(PLOT.left, y(0), PLOT.right, y(0), 'base'),
    ...columns.flatMap((column, i) =>
      heading(column, places[i], room, (x(column.from) + x(column.to)) / 2, y),
    ),
    ...columns.flatMap((column, i) => footing(column, places[i], room, (x(column.from) + x(column.to)) / 2)),
    ...[chart.units.mass, 'stop here'].map((text, i) =>
      label(text, 4, PLOT.bottom + BELOW - 10 + LINE * i, { class: 'small' }),
    ),
    ...(withWays
      ? ['going on:', 'step, use', 'of its hours,', 'rent of one'].map((text, i) =>
          label(text, 4, PLOT.bottom + BELOW + 18 + LINE * i, { class: 'small' }),
        )
      : []),
  );
}

/** What was paid at the gate, what reducing adds, and what it takes away again. */
function columnShape(column: LadderColumn, x: Scale, y: Scale): string {
  const { from, to } = column;
  return columnParts(column)
    .map(({ low, high, name }) =>
      element('rect', {
        class: name,
        x: x(from),
        y: y(Math.max(low, high)),
        width: Math.max(0.5, x(to) - x(from)),
        height: Math.abs(y(low) - y(high)),
      }),
    )
    .join('');
}

/** Name and money by mass above a column, led to it by a line. */
function heading(column: LadderColumn, place: number, room: number, middle: number, y: Scale): string[] {
  const top = y(Math.max(column.height, column.fee, 0));
  const end = PLOT.top - 22;
  return [
    ...lines(column.name, room / 5.6, 4).map((text, i, all) =>
      label(text, place, end - 16 - LINE * (all.length - 1 - i), { 'text-anchor': 'middle', class: 'small' }),
    ),
    label(formatFigure(column.height, 2), place, end, { 'text-anchor': 'middle', class: 'strong' }),
    leader(place, end + 4, middle, top - 1),
  ];
}

/** Mass, and the way on to the next rung, under a column. */
function footing(column: LadderColumn, place: number, room: number, middle: number): string[] {
  const top = PLOT.bottom + BELOW;
  const middled = { 'text-anchor': 'middle' } as const;
  const mass = label(formatFigure(column.to - column.from, 1), place, top, { ...middled, class: 'strong' });
  const leading = leader(place, top - 11, middle, PLOT.bottom + 4);
  const { wayOn } = column;
  if (wayOn === undefined) return [mass, leading];
  const { gain, use, rent } = wayOn;
  const bar = Math.min(56, room - 10);
  const said = lines(wayOn.step, room / 5.4, 3);
  const base = top + 32 + LINE * said.length;
  return [
    mass,
    leading,
    ...(gain === undefined ? [] : [label(signed(gain), place, top + 18, { ...middled, class: 'strong' })]),
    ...said.map((text, i) => label(text, place, top + 32 + LINE * i, { ...middled, class: 'small' })),
    ...(use === undefined
      ? []
      : [
          element('rect', { class: 'hours', x: place - bar / 2, y: base - 6, width: bar, height: 6 }),
          element('rect', {
            class: 'used',
            x: place - bar / 2,
            y: base - 6,
            width: bar * Math.min(1, use),
            height: 6,
          }),
          label(`${formatFigure(use * 100, 1)} %`, place, base + 12, { ...middled, class: 'small' }),
        ]),
    ...(rent === undefined || rent === 0
      ? []
      : [label(`${formatFigure(rent, 2)}/h`, place, base + 24, { ...middled, class: 'strong' })]),
  ];
}

function signed(amount: number): string {
  const text = formatFigure(amount, 2);
  return amount > 0 ? `+${text}` : text;
}

function leader(x1: number, y1: number, x2: number, y2: number): string {
  if (Math.abs(y2 - y1) < 3) return '';
  const bend = y1 + Math.sign(y2 - y1) * 8;
  const path = [
    `M${coordinate(x1)},${coordinate(y1)}`,
    `L${coordinate(x2)},${coordinate(bend)}`,
    `V${coordinate(y2)}`,
  ];
  return element('path', { class: 'leader', d: path.join('') });
}

function scaleLines(y: Scale, units: ReportUnits): string[] {
  return [
    label(`${units.currency}/${units.mass}`, 4, PLOT.top - 22, { class: 'small' }),
    ...y
      .ticks(5)
      .flatMap((tick) => [
        line(PLOT.left, y(tick), PLOT.right, y(tick), 'grid'),
        label(formatFigure(tick, 0), PLOT.left - 8, y(tick) + 4, { 'text-anchor': 'end', class: 'small' }),
      ]),
  ];
}
