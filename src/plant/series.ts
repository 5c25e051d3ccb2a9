import type { Month } from '../calendar/month.js';
import { monthsBetween } from '../calendar/months-between.js';
import type { Series } from '../scenario/schema/figures.js';

/**
 * A series spread over the months of the horizon: one value for all, an array with one value a month, or
 * values from a month on.
 *
 * @throws RangeError where the series does not cover the horizon.
 */
export function spread<T>(series: Series<T>, months: readonly Month[]): T[] {
  if (isArray(series)) return covering(series, 0, months);
  if (isOffset(series)) return covering(series.values, monthsBetween(series.from, months[0]!.label), months);
  return months.map(() => series);
}

/** The values that a series is written with. */
export function valuesOf<T>(series: Series<T>): readonly T[] {
  if (isArray(series)) return series;
  return isOffset(series) ? series.values : [series];
}

/** Whether a series has a value for every month of the horizon. */
export function isCovered<T>(series: Series<T>, months: readonly Month[]): boolean {
  if (isArray(series)) return series.length >= months.length;
  if (!isOffset(series)) return true;
  const offset = monthsBetween(series.from, months[0]!.label);
  return offset >= 0 && series.values.length >= offset + months.length;
}

function covering<T>(values: readonly T[], offset: number, months: readonly Month[]): T[] {
  if (offset < 0 || values.length < offset + months.length) {
    throw new RangeError(`A series of ${values.length} values does not cover the horizon.`);
  }
  return values.slice(offset, offset + months.length);
}

function isArray<T>(series: Series<T>): series is readonly T[] {
  return Array.isArray(series);
}

function isOffset<T>(series: Series<T>): series is { readonly from: string; readonly values: readonly T[] } {
  return typeof series === 'object' && series !== null && 'values' in series;
}
