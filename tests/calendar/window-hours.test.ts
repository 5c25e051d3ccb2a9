import { expect, test } from 'vitest';
import { monthsOf } from '../../src/calendar/month.js';
import { type Weekday, windowDays, windowLength } from '../../src/calendar/window-hours.js';

const WORKDAYS: readonly Weekday[] = ['mon', 'tue', 'wed', 'thu', 'fri'];

test('a window whose end is not after its start runs past midnight', () => {
  expect(windowLength('06:00', '14:00')).toBe(8);
  expect(windowLength('22:00', '06:00')).toBe(8);
  expect(windowLength('22:30', '06:00')).toBe(7.5);
  expect(windowLength('00:00', '24:00')).toBe(24);
  expect(windowLength('06:00', '06:00')).toBe(24);
});

test('January 2027 begins on a Friday: 21 working days, 5 Fridays, Saturdays and Sundays', () => {
  const months = monthsOf('2027-01', 1);
  expect(windowDays(months, WORKDAYS, [])).toEqual([21]);
  expect(
    (['mon', 'thu', 'fri', 'sat', 'sun'] as const).map((day) => windowDays(months, [day], [])[0]),
  ).toEqual([4, 4, 5, 5, 5]);
});

test('29 February 2028 is a Tuesday', () => {
  const months = monthsOf('2028-02', 1);
  expect(windowDays(months, ['tue'], [])).toEqual([5]);
  expect(windowDays(months, ['tue'], ['2028-02-29'])).toEqual([4]);
});

test('a closed date drops the windows that begin on it, in its own month only', () => {
  const months = monthsOf('2027-01', 2);
  // 1 January 2027 is a Friday, 2 January a Saturday, 1 March outside.
  expect(windowDays(months, WORKDAYS, ['2027-01-01', '2027-01-02', '2027-03-01'])).toEqual([20, 20]);
});

test('a closed date written twice drops one day', () => {
  expect(windowDays(monthsOf('2027-01', 1), WORKDAYS, ['2027-01-04', '2027-01-04'])).toEqual([20]);
});

test('a night window belongs to the month on whose last day it begins', () => {
  // 31 January 2027 is a Sunday: its night reaches into February and counts in January.
  expect(windowDays(monthsOf('2027-01', 2), ['sun'], [])).toEqual([5, 4]);
});

test('days on which clocks change in some countries count as any other', () => {
  // 14 and 28 March and 31 October 2027 are Sundays.
  expect(windowDays(monthsOf('2027-03', 1), ['sun'], [])).toEqual([4]);
  expect(windowDays(monthsOf('2027-10', 1), ['sun'], [])).toEqual([5]);
});
