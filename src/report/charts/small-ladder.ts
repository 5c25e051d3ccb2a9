import { scaleLinear } from 'd3-scale';
import type { LadderFigures } from '../ladder-figures.js';
import { element, line } from './svg.js';

const SIZE = { width: 120, height: 56 };

/** The most that a month shows, so that months can be compared by eye. */
export interface SmallLadderScale {
  readonly tires: number;
  readonly highest: number;
  readonly lowest: number;
}

export function smallLadderScale(months: readonly LadderFigures[]): SmallLadderScale {
  const rungs = months.flatMap((figures) => figures.rungs.map(({ net, tires }) => net / tires));
  return {
    tires: Math.max(1e-9, ...months.map(({ tires }) => tires)),
    highest: Math.max(1e-9, ...rungs),
    lowest: Math.min(0, ...rungs),
  };
}

/** The ladder of one month without words: widths and heights on the scale of all months. */
export function smallLadder({ rungs }: LadderFigures, scale: SmallLadderScale): string {
  const x = scaleLinear([0, scale.tires], [0, SIZE.width]);
  const y = scaleLinear([scale.lowest, scale.highest], [SIZE.height - 2, 2]);
  let at = 0;
  const columns = rungs.map(({ tires, net, tippingFee }) => {
    const from = at;
    at += tires;
    const [height, fee] = [net / tires, tippingFee / tires];
    const box = (low: number, high: number, name: string) =>
      element('rect', {
        class: name,
        x: x(from),
        y: y(Math.max(low, high)),
        width: x(at) - x(from),
        height: Math.abs(y(low) - y(high)),
      });
    return height >= fee ? box(0, fee, 'gate') + box(fee, height, 'earned') : box(0, height, 'gate');
  });
  return element(
    'svg',
    { class: 'ladder small-ladder', 'aria-hidden': 'true', viewBox: `0 0 ${SIZE.width} ${SIZE.height}` },
    ...columns,
    line(0, y(0), SIZE.width, y(0), 'base'),
  );
}
