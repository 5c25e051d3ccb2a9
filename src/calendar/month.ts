import { UTCDateMini } from '@date-fns/utc/date/mini';
import { addMonths } from 'date-fns/addMonths';
import { differenceInCalendarDays } from 'date-fns/differenceInCalendarDays';
import { getDaysInMonth } from 'date-fns/getDaysInMonth';

/** One calendar month of the horizon. */
export interface Month {
  /** 0 for the first month of the horizon. */
  readonly index: number;
  /** YYYY-MM */
  readonly label: string;
  readonly days: number;
  /** Days from the start of the horizon to the first day of the month. */
  readonly startDay: number;
  /** Days from the start of the horizon to the month's end: 31 at the end of a first month of 31 days. */
  readonly endDay: number;
}

/**
 * The months of a horizon, all calendar arithmetic in UTC.
 *
 * @example monthsOf('2027-01', 2).map((month) => month.endDay) // [31, 59]
 */
export function monthsOf(firstMonth: string, count: number): Month[] {
  const start = firstDayOf(firstMonth);
  return Array.from({ length: count }, (_, index) => {
    const first = addMonths(start, index);
    const days = getDaysInMonth(first);
    const startDay = differenceInCalendarDays(first, start);
    return { index, label: first.toISOString().slice(0, 7), days, startDay, endDay: startDay + days };
  });
}

/** Midnight UTC of the first day of YYYY-MM. */
export function firstDayOf(month: string): Date {
  return new UTCDateMini(Number(month.slice(0, 4)), Number(month.slice(5, 7)) - 1, 1);
}

/** Midnight UTC of YYYY-MM-DD. */
export function dayOf(date: string): Date {
  return new UTCDateMini(Number(date.slice(0, 4)), Number(date.slice(5, 7)) - 1, Number(date.slice(8, 10)));
}
