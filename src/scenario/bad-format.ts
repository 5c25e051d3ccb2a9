import { monthsOf } from '../calendar/month.js';
import type { Found } from './finding.js';
import { quoted } from './shown-value.js';

const MONTH_NAMES =
  'January February March April May June July August September October November December'.split(' ');

/** The first year that the format can write a date in. */
const FIRST_YEAR = 1000;

/** What is wrong with text that is not written as the format has it; dates that do not exist are said as such. */
export function badFormat(value: unknown, remedy: string): Found {
  const [, year, month, day] = /^(\d{4})-(\d\d)(?:-(\d\d))?$/.exec(String(value)) ?? [];
  const name = MONTH_NAMES[Number(month) - 1];
  if (day !== undefined && name !== undefined && Number(year) >= FIRST_YEAR && /date/.test(remedy)) {
    const days = monthsOf(`${year}-${month}`, 1)[0].days;
    return {
      code: 'calendar',
      text: `${value} does not exist: ${name} ${year} has ${days} days`,
      remedy: `Write a date that exists, such as ${year}-${month}-${days}`,
    };
  }
  if (year !== undefined && /month|date/.test(remedy)) {
    return { code: 'calendar', text: `${value} is outside the calendar`, remedy };
  }
  return { code: 'malformed', text: `${quoted(value)} is not written as it should be`, remedy };
}
