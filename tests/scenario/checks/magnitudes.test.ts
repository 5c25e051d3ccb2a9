import { describe, expect, test } from 'vitest';
import { LARGEST_FIGURE, SMALLEST_FIGURE } from '../../../src/scenario/checks/magnitudes.js';
import { toldAfter, wrongAfter } from '../edited.js';

describe('a figure too large or too small to compute with', () => {
  test.each([
    ['/discountRate', 1e308],
    ['/outlets/1/price', -1e13],
    ['/crews/0/wage', 5e-324],
    ['/feeds/1/haulage', -1e-13],
  ])('is told at its place: %s', (pointer, value) => {
    expect(wrongAfter({ [pointer]: value })).toContain(`${pointer}: out of range`);
  });

  test('is told in lists and in rates', () => {
    expect(wrongAfter({ '/outlets/1/price': [3, 1e20] })).toEqual(['/outlets/1/price/1: out of range']);
    expect(wrongAfter({ '/outlets/1/price': { amount: 1e20, per: 'kg' } })).toEqual([
      '/outlets/1/price/amount: out of range',
    ]);
  });

  test('is told once where its shape is wrong too', () => {
    expect(wrongAfter({ '/crews/0/people': -1e20 })).toEqual(['/crews/0/people: out of range']);
  });

  test('says what to write', () => {
    expect(toldAfter({ '/outlets/1/price': 1e13 }).remedy).toContain(
      'Write a figure between -1000000000000 and 1000000000000',
    );
    expect(toldAfter({ '/outlets/1/price': 1e-13 }).remedy).toBe('Write 0, or a figure of 1e-12 or more.');
  });

  test('begins beyond the limits', () => {
    expect(wrongAfter({ '/outlets/1/price': -LARGEST_FIGURE })).toEqual([]);
    expect(wrongAfter({ '/outlets/1/price': SMALLEST_FIGURE })).toEqual([]);
    expect(wrongAfter({ '/outlets/1/price': 0 })).toEqual([]);
  });
});
