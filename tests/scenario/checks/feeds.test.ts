import { describe, expect, test } from 'vitest';
import { toldAfter, wrongAfter } from '../edited.js';

describe('a feed', () => {
  test('commits no more than can be had, month by month', () => {
    expect(wrongAfter({ '/feeds/0/committed': 701 })).toEqual(['/feeds/0/committed: conflict']);
    expect(wrongAfter({ '/feeds/0/committed': [800, 700] })).toEqual([]);
    expect(toldAfter({ '/feeds/0/committed': [800, 701] }).message).toBe(
      "feeds[0] 'retailers', committed: 701 are committed in 2027-02, and 700 can be had.",
    );
  });
});

describe('a table of fees and tonnes', () => {
  test('rises strictly in its fees', () => {
    expect(wrongAfter({ '/feeds/1/response/1/fee': 60 })).toEqual(['/feeds/1/response/1/fee: conflict']);
    expect(wrongAfter({ '/feeds/1/response/1/fee': 60.01 })).toEqual([]);
  });

  test('compares its fees in one unit', () => {
    // 45.4 kg a tire: 2.70 a tire is 59.47 a tonne, 2.75 a tire 60.57.
    expect(wrongAfter({ '/feeds/1/response/1/fee': { amount: 2.7, per: 'tire' } })).toEqual([
      '/feeds/1/response/1/fee: conflict',
    ]);
    expect(wrongAfter({ '/feeds/1/response/1/fee': { amount: 2.75, per: 'tire' } })).toEqual([]);
  });

  test('does not rise in its tonnes', () => {
    expect(wrongAfter({ '/feeds/1/response/0/available': 99 })).toEqual([
      '/feeds/1/response/1/available: conflict',
    ]);
    expect(wrongAfter({ '/feeds/1/response/0/available': 100 })).toEqual([]);
  });

  test("stays between the committed and the feed's own tonnes", () => {
    expect(wrongAfter({ '/feeds/1/response/1/available': 19 })).toEqual([
      '/feeds/1/response/1/available: conflict',
    ]);
    expect(wrongAfter({ '/feeds/1/response/1/available': 20 })).toEqual([]);
    expect(wrongAfter({ '/feeds/1/response/0/available': 251 })).toEqual([
      '/feeds/1/response/0/available: conflict',
    ]);
  });
});
