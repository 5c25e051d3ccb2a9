import { describe, expect, test } from 'vitest';
import { DELETED, toldAfter, wrongAfter } from '../edited.js';

const CLEAR = { '/operation/windows/2': DELETED, '/operation/windows/1': DELETED };

function windowsOf(...times: readonly (readonly [string[], string, string])[]) {
  const windows = times.map(([days, from, to], i) => ({ id: `w${i}`, days, from, to, powerPrice: 0.1 }));
  return { ...CLEAR, '/operation/windows': windows, '/uncertainty/3': DELETED };
}

describe('windows', () => {
  test.each<[string, ...(readonly [string[], string, string])[]]>([
    ['on the same days', [['mon'], '06:00', '14:00'], [['mon'], '13:59', '20:00']],
    ['inside each other', [['tue'], '00:00', '24:00'], [['tue'], '12:00', '12:01']],
    ['over midnight', [['mon'], '22:00', '06:00'], [['tue'], '05:59', '07:00']],
    ["around the week's end", [['sun'], '22:00', '06:00'], [['mon'], '05:00', '14:00']],
    ['of a whole day from noon', [['wed'], '12:00', '12:00'], [['thu'], '11:00', '12:00']],
  ])('overlap %s', (_, ...times) => {
    expect(wrongAfter(windowsOf(...times))).toEqual(['/operation/windows/1: overlap']);
    expect(wrongAfter(windowsOf(...times.toReversed()))).toEqual(['/operation/windows/1: overlap']);
  });

  test.each<[string, ...(readonly [string[], string, string])[]]>([
    ['that meet', [['mon'], '06:00', '14:00'], [['mon'], '14:00', '20:00']],
    ['that meet at midnight', [['mon'], '06:00', '24:00'], [['tue'], '00:00', '06:00']],
    ['that meet over midnight', [['mon'], '22:00', '06:00'], [['tue'], '06:00', '07:00']],
    ["that meet around the week's end", [['sun'], '22:00', '06:00'], [['mon'], '06:00', '14:00']],
    ['on other days', [['mon'], '06:00', '14:00'], [['tue'], '06:00', '14:00']],
    ['of a whole day', [['mon'], '00:00', '00:00'], [['tue'], '00:00', '24:00']],
  ])('do not overlap %s', (_, ...times) => {
    expect(wrongAfter(windowsOf(...times))).toEqual([]);
  });

  test('that overlap are told with the minutes and the first of them', () => {
    expect(
      toldAfter(windowsOf([['sun'], '22:00', '06:00'], [['mon', 'tue'], '05:30', '14:00'])).message,
    ).toBe(
      "operation.windows[1] 'w1': it shares 30 minutes a week with the window 'w0', first on mon at 05:30.",
    );
  });
});
