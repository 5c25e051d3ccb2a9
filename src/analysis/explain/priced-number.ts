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
export function downToNothing(now: readonly number[]): Pick<PricedNumber, 'fall'> {
  const least = Math.min(...now);
  return least >= 0 ? { fall: least } : {};
}
