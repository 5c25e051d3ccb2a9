import { millisecondsInDay } from 'date-fns/constants';
import { dayOf, firstDayOf, type Month } from './month.js';

export type Weekday = 'mon' | 'tue' | 'wed' | 'thu' | 'fri' | 'sat' | 'sun';

const WEEKDAYS: readonly Weekday[] = ['sun', 'mon', 'tue', 'wed', 'thu', 'fri', 'sat'];

const HOURS_PER_DAY = 24;

/**
 * Hours of one occurrence of a window, by the wall clock. A window whose `to` is not after its `from` runs
 * past midnight; with both the same it lasts 24 hours.
 *
 * @example windowLength('22:00', '06:00') // 8
 */
export function windowLength(from: string, to: string): number {
  const length = hoursOf(to) - hoursOf(from);
  return length > 0 ? length : length + HOURS_PER_DAY;
}

/** By month, the days on which a window begins: those of its weekdays that are not closed dates. */
export function windowDays(
  months: readonly Month[],
  weekdays: readonly Weekday[],
  closed: readonly string[],
): number[] {
  const closedDays = new Set(closed.map((date) => dayOf(date).getTime()));
  const isOpen = WEEKDAYS.map((weekday) => weekdays.includes(weekday));
  return months.map((month) => {
    const first = firstDayOf(month.label);
    let count = 0;
    for (let day = 0; day < month.days; day++) {
      const weekday = (first.getUTCDay() + day) % WEEKDAYS.length;
      if (isOpen[weekday] && !closedDays.has(first.getTime() + day * millisecondsInDay)) count += 1;
    }
    return count;
  });
}

function hoursOf(clock: string): number {
  return Number(clock.slice(0, 2)) + Number(clock.slice(3, 5)) / 60;
}
