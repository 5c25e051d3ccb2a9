import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { formatFigure } from '../figure.js';
import { label, line } from './svg.js';

export interface Plot {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export type Scale = ScaleLinear<number, number>;

/** A scale over the figures given, rounded outwards, that takes in 0 where asked. */
export function scaleOver(
  figures: readonly number[],
  range: readonly [number, number],
  withZero = false,
): Scale {
  const all = withZero ? [...figures, 0] : figures;
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const pad = high > low ? 0 : Math.abs(high) * 0.05 || 1;
  return scaleLinear([low - pad, high + pad], [...range]).nice();
}

/** The same without rounding: the axis ends where the figures do. */
export function scaleFrom(low: number, high: number, range: readonly [number, number]): Scale {
  const pad = high > low ? 0 : Math.abs(high) * 0.05 || 1;
  return scaleLinear([low - pad, high + pad], [...range]);
}

/** Figures along the bottom with their title, which names the unit. */
export function bottomAxis(scale: Scale, plot: Plot, title: string): string[] {
  const { ticks, print } = ticksOf(scale, 6);
  return [
    line(plot.left, plot.bottom, plot.right, plot.bottom, 'axis'),
    ...ticks.flatMap((tick) => [
      line(scale(tick), plot.bottom, scale(tick), plot.bottom + 5, 'axis'),
      label(print(tick), scale(tick), plot.bottom + 18, { 'text-anchor': 'middle' }),
    ]),
    label(title, (plot.left + plot.right) / 2, plot.bottom + 36, { 'text-anchor': 'middle' }),
  ];
}

/** Figures along the left with grid lines; the title stands above them. */
export function leftAxis(scale: Scale, plot: Plot, title: string): string[] {
  const { ticks, print } = ticksOf(scale, 6);
  return [
    ...ticks.map((tick) =>
      line(plot.left, scale(tick), plot.right, scale(tick), tick === 0 ? 'zero' : 'grid'),
    ),
    line(plot.left, plot.top, plot.left, plot.bottom, 'axis'),
    ...ticks.map((tick) => label(print(tick), plot.left - 6, scale(tick) + 4, { 'text-anchor': 'end' })),
    label(title, 12, plot.top - 10),
  ];
}

/** A figure with as many digits as a step on its axis needs. */
export function printerFor(step: number): (value: number) => string {
  const digits = step > 0 ? Math.max(0, Math.min(6, -Math.floor(Math.log10(step) + 1e-9))) : 0;
  return (value) => formatFigure(value, digits);
}

function ticksOf(scale: Scale, count: number) {
  const ticks = scale.ticks(count);
  const step = ticks.length > 1 ? Math.abs(ticks[1] - ticks[0]) : Math.abs(ticks[0] ?? 1);
  return { ticks, print: printerFor(step) };
}
