import { windowLength } from '../../calendar/window-hours.js';
import type { Problem } from '../../issue/problem.js';
import type { Draft, Located } from '../draft.js';
import { problemAt } from '../place.js';
import { WEEKDAYS } from '../schema/operation.js';
import type { Window } from '../schema/scenario.js';

/** Windows share no minute of the week, nor around its end. */
export function checkWindows(draft: Draft): Problem[] {
  const windows = draft.fragments.windows.flatMap(({ value, pointer }) =>
    hasTimes(value) ? [{ value, pointer, minutes: minutesOf(value) }] : [],
  );
  return windows.flatMap((window, i) =>
    windows.slice(0, i).flatMap((earlier) => {
      const shared = window.minutes.map((runs, minute) => runs & earlier.minutes[minute]!);
      const first = shared.indexOf(1);
      return first < 0
        ? []
        : [
            overlap(draft, window, earlier.value, {
              first,
              count: shared.filter((both) => both === 1).length,
            }),
          ];
    }),
  );
}

type Times = Pick<Window, 'days' | 'from' | 'to'> & Partial<Window>;

const MINUTES_PER_HOUR = 60;
const MINUTES_PER_DAY = 24 * MINUTES_PER_HOUR;
const MINUTES_PER_WEEK = 7 * MINUTES_PER_DAY;

function hasTimes(window: Partial<Window>): window is Times {
  return window.days !== undefined && window.from !== undefined && window.to !== undefined;
}

/** The minutes of a week from Monday at midnight on: 1 where a window runs. */
function minutesOf({ days, from, to }: Times): Uint8Array {
  const length = Math.round(windowLength(from, to) * MINUTES_PER_HOUR);
  const start = Number(from.slice(0, 2)) * MINUTES_PER_HOUR + Number(from.slice(3, 5));
  const minutes = new Uint8Array(MINUTES_PER_WEEK);
  for (const day of days) {
    const begin = WEEKDAYS.indexOf(day) * MINUTES_PER_DAY + start;
    minutes.fill(1, begin, begin + length);
    minutes.fill(1, 0, Math.max(0, begin + length - MINUTES_PER_WEEK));
  }
  return minutes;
}

function overlap(
  draft: Draft,
  { pointer }: Located<Times>,
  earlier: Times,
  { first, count }: { readonly first: number; readonly count: number },
): Problem {
  const day = WEEKDAYS[Math.floor(first / MINUTES_PER_DAY)];
  const minute = first % MINUTES_PER_DAY;
  const clock = [Math.floor(minute / MINUTES_PER_HOUR), minute % MINUTES_PER_HOUR]
    .map((part) => String(part).padStart(2, '0'))
    .join(':');
  return problemAt(
    draft.document,
    pointer,
    'overlap',
    `it shares ${count} minutes a week with the window ${earlier.id === undefined ? 'before it' : `'${earlier.id}'`}, first on ${day} at ${clock}`,
    'Let one window end where the other begins',
  );
}
