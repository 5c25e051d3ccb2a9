import { differenceInCalendarDays } from 'date-fns/differenceInCalendarDays';
import { dayOf, firstDayOf, type Month } from './month.js';

/** By month, the days from `from` to `to`, both included; always in force on a side that is absent. */
export function daysInForce(months: readonly Month[], from?: string, to?: string): number[] {
  const first = from === undefined ? Number.NEGATIVE_INFINITY : dayNumber(months, from);
  const after = to === undefined ? Number.POSITIVE_INFINITY : dayNumber(months, to) + 1;
  return months.map((month) => Math.max(0, Math.min(month.endDay, after) - Math.max(month.startDay, first)));
}

/** Days from the start of the horizon to a date: 0 on its first day, negative before it. */
export function dayNumber(months: readonly Month[], date: string): number {
  return differenceInCalendarDays(dayOf(date), firstDayOf(months[0]!.label));
}
