import type { Month } from '../calendar/month.js';
import { monthsBetween } from '../calendar/months-between.js';
import type { Series } from './schema/figures.js';

/** A series that is written as a list: its values, and the month of the first where it says one. */
export interface SeriesList<T> {
  readonly values: readonly T[];
  /** YYYY-MM; absent: the first month of the horizon. */
  readonly start?: string;
}

/** The list of a series; undefined where it is one value for all months. */
export function listOf<T>(series: Series<T>): SeriesList<T> | undefined {
  if (Array.isArray(series)) return { values: series as readonly T[] };
  if (typeof series !== 'object' || series === null || !('values' in series)) return undefined;
  const { from, values } = series as { from: string; values: readonly T[] };
  return { values, start: from };
}

/** The values that a series is written with. */
export function valuesOf<T>(series: Series<T>): readonly T[] {
  return listOf(series)?.values ?? [series as T];
}

/**
 * One value a month, from a first month (YYYY-MM) on: of one value for all, of a list with one value a month, or of
 * values from a month on. Undefined where the series does not cover the months.
 */
export function valuesFrom<T>(
  series: Series<T>,
  firstMonth: string,
  months: number,
): readonly T[] | undefined {
  const list = listOf(series);
  if (list === undefined) return Array.from({ length: months }, () => series as T);
  const offset = list.start === undefined ? 0 : monthsBetween(list.start, firstMonth);
  if (offset < 0 || list.values.length < offset + months) return undefined;
  return list.values.slice(offset, offset + months);
}

/**
 * A series over the months of the horizon.
 *
 * @throws RangeError where the series does not cover them.
 */
export function spread<T>(series: Series<T>, months: readonly Month[]): readonly T[] {
  const values = valuesFrom(series, months[0]!.label, months.length);
  if (values === undefined) throw new RangeError('A series does not cover the horizon.');
  return values;
}

/** Whether a series has a value for every month of the horizon. */
export function isCovered<T>(series: Series<T>, months: readonly Month[]): boolean {
  return valuesFrom(series, months[0]!.label, months.length) !== undefined;
}
