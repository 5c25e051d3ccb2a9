import { expect, test } from 'vitest';
import { dayNumber, daysInForce } from '../../src/calendar/days-in-force.js';
import { monthsOf } from '../../src/calendar/month.js';
import { monthsBetween } from '../../src/calendar/months-between.js';

test('a month ends on the day after which the next begins', () => {
  const months = monthsOf('2027-01', 60);
  expect(months[0]).toEqual({ index: 0, label: '2027-01', days: 31, startDay: 0, endDay: 31 });
  for (const [i, month] of months.slice(1).entries()) expect(month.startDay).toBe(months[i]!.endDay);
  // 2027 to 2031 with one leap day, in 2028.
  expect(months.at(-1)).toMatchObject({ label: '2031-12', endDay: 5 * 365 + 1 });
});

test('February has 29 days in 2028 and 2000, 28 in 2027 and 2100 (Gregorian calendar)', () => {
  expect(['2028-02', '2000-02', '2027-02', '2100-02'].map((label) => monthsOf(label, 1)[0]!.days)).toEqual([
    29, 29, 28, 28,
  ]);
});

test('dates count from the first day of the horizon, over a leap day', () => {
  const months = monthsOf('2028-02', 2);
  expect(dayNumber(months, '2028-02-01')).toBe(0);
  expect(dayNumber(months, '2028-03-01')).toBe(29);
  expect(dayNumber(months, '2028-01-31')).toBe(-1);
});

test('both the first and the last day are in force', () => {
  const months = monthsOf('2027-01', 3);
  expect(daysInForce(months, '2027-01-31', '2027-02-01')).toEqual([1, 1, 0]);
  expect(daysInForce(months, '2027-02-15', '2027-02-15')).toEqual([0, 1, 0]);
  expect(daysInForce(months)).toEqual([31, 28, 31]);
  expect(daysInForce(months, '2026-01-01', '2026-12-31')).toEqual([0, 0, 0]);
  expect(daysInForce(months, '2027-03-31')).toEqual([0, 0, 1]);
});

test('months between two months, over a year end', () => {
  expect(monthsBetween('2026-11', '2027-02')).toBe(3);
  expect(monthsBetween('2027-02', '2026-11')).toBe(-3);
});
