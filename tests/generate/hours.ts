import { monthsOf } from '../../src/calendar/month.js';
import { WEEKDAYS } from '../../src/scenario/schema/operation.js';
import type { Machine, Scenario, Window } from '../../src/scenario/schema/scenario.js';

type Operation = Scenario['operation'];

/** Hours of a window by month: the days on which it begins, less closed dates, times its length. */
export function windowHours(window: Window, operation: Operation, horizon: Scenario['horizon']): number[] {
  const length = (minutesOf(window.to) - minutesOf(window.from) + 1440) % 1440 || 1440;
  return monthsOf(horizon.firstMonth, horizon.months).map(({ label, days }) => {
    const open = Array.from(
      { length: days },
      (_, day) => `${label}-${String(day + 1).padStart(2, '0')}`,
    ).filter((date) => window.days.includes(weekdayOf(date)) && !operation.closed?.includes(date));
    return (open.length * length) / 60;
  });
}

/** Machine-hours by month over all windows; figures of the machine that are series are not read. */
export function machineHours(machine: Machine, operation: Operation, horizon: Scenario['horizon']): number[] {
  const perWindow = operation.windows.map((window) => windowHours(window, operation, horizon));
  const availability = (machine.availability as number | undefined) ?? 1;
  const maintenance = (machine.maintenanceHours as number | undefined) ?? 0;
  return Array.from({ length: horizon.months }, (_, month) => {
    const hours = perWindow.reduce((sum, of) => sum + of[month]!, 0);
    return hours * (machine.count ?? 1) * availability - maintenance;
  });
}

function minutesOf(clock: string): number {
  return Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5));
}

function weekdayOf(date: string): (typeof WEEKDAYS)[number] {
  return WEEKDAYS[(new Date(`${date}T00:00:00Z`).getUTCDay() + 6) % 7]!;
}
