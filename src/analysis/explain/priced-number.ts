import { discountFactor } from '../../planning/discount.js';
import type { Plant } from '../../plant/plant.js';
import type { Firmness } from './explanation.js';

/** A price or cost and the columns whose cost it moves. */
export interface PricedNumber {
  readonly number: Firmness['number'];
  readonly unit: Firmness['unit'];
  /** By month. */
  readonly now: readonly number[];
  /** [month][columns of the month], with the present value of one unit more on one unit of the column. */
  readonly columns: readonly (readonly { readonly column: number; readonly rate: number }[])[];
  /** How far it can fall and rise and still make sense; absent: any way. */
  readonly fall?: number;
  readonly rise?: number;
}

/** A cost that is none below nothing. */
function downToNothing(now: readonly number[]): Pick<PricedNumber, 'fall'> {
  const least = Math.min(...now);
  return least >= 0 ? { fall: least } : {};
}

/** A column, and what a unit of it takes of what is paid for: 1 if absent. */
export interface Use {
  readonly column: number;
  readonly amount?: number;
}

/** A cost, paid at the month's end; its figure stays at nothing or above. */
export function costOf(
  plant: Plant,
  { number, unit, now }: Pick<PricedNumber, 'number' | 'unit' | 'now'>,
  usesIn: (month: number) => readonly Use[],
): PricedNumber {
  return {
    number,
    unit,
    now,
    columns: plant.months.map(({ index: month }) =>
      usesIn(month).map(({ column, amount = 1 }) => ({
        column,
        rate: -discountFactor(plant, month) * amount,
      })),
    ),
    ...downToNothing(now),
  };
}
