import { describe, expect, test } from 'vitest';
import { toldAfter, wrongAfter } from '../edited.js';

describe('a last day', () => {
  test.each(['/outlets/0', '/contracts/0', '/contracts/1', '/offers/0'])(
    'is not before the first: %s',
    (entry) => {
      expect(wrongAfter({ [`${entry}/to`]: '2026-12-31' })).toEqual([`${entry}/to: calendar`]);
      expect(wrongAfter({ [`${entry}/from`]: '2027-05-05', [`${entry}/to`]: '2027-05-05' })).toEqual([]);
    },
  );

  test('is told with both', () => {
    expect(toldAfter({ '/outlets/0/to': '2027-01-14' }).message).toBe(
      "outlets[0] 'turf', to: it ends on 2027-01-14, before it begins on 2027-01-15.",
    );
  });
});
