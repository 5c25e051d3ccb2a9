import { describe, expect, test } from 'vitest';
import { DELETED, toldAfter, wrongAfter } from '../edited.js';

describe('an outlet', () => {
  test('has a price or tiers, and a limit only with a price', () => {
    expect(wrongAfter({ '/outlets/1/price': DELETED, '/uncertainty/1': DELETED })).toEqual([
      '/outlets/1: missing',
    ]);
    expect(wrongAfter({ '/outlets/0/price': 200 })).toEqual(['/outlets/0: conflict']);
    expect(wrongAfter({ '/outlets/0/limit': 200 })).toEqual(['/outlets/0: conflict']);
    expect(wrongAfter({ '/outlets/1/limit': DELETED })).toEqual([]);
  });

  test('whose price is misshapen has one all the same', () => {
    expect(wrongAfter({ '/outlets/2/price': 'high' })).toEqual(['/outlets/2/price: wrong type']);
  });
});

describe('tiers', () => {
  test('widen from one to the next, month by month', () => {
    expect(wrongAfter({ '/outlets/0/tiers/1/upTo': 50 })).toEqual(['/outlets/0/tiers/1/upTo: tiers']);
    expect(wrongAfter({ '/outlets/0/tiers/1/upTo': [140, 69] })).toEqual(['/outlets/0/tiers/1/upTo: tiers']);
    expect(wrongAfter({ '/outlets/0/tiers/1/upTo': [60, 70] })).toEqual(['/outlets/0/tiers/1/upTo: tiers']);
    expect(wrongAfter({ '/outlets/0/tiers/1/upTo': [140, 70] })).toEqual([]);
    expect(toldAfter({ '/outlets/0/tiers/1/upTo': [140, 69] }).message).toBe(
      "outlets[0] 'turf', tiers[1].upTo: the tier ends at 69 in 2027-02, and the one before it at 70.",
    );
  });

  test('do not rise in price, month by month', () => {
    expect(wrongAfter({ '/outlets/0/tiers/1/price': 211 })).toEqual(['/outlets/0/tiers/1/price: tiers']);
    expect(wrongAfter({ '/outlets/0/tiers/1/price': [190, 211] })).toEqual([
      '/outlets/0/tiers/1/price: tiers',
    ]);
    expect(wrongAfter({ '/outlets/0/tiers/1/price': 210 })).toEqual([]);
  });

  test('are compared in one unit', () => {
    // 0.10 a lb is 220.46 a tonne, by 1 lb = 0.45359237 kg exactly; 0.09 a lb is 198.42.
    expect(wrongAfter({ '/outlets/0/tiers/1/price': { amount: 0.1, per: 'lb' } })).toEqual([
      '/outlets/0/tiers/1/price: tiers',
    ]);
    expect(wrongAfter({ '/outlets/0/tiers/1/price': { amount: 0.09, per: 'lb' } })).toEqual([]);
  });

  test('by heating value are compared with its figure, or without where the unit is the same', () => {
    const tiers = (first: number, second: number) => ({
      '/outlets/3/price': DELETED,
      '/outlets/3/material': 'chip',
      '/disposals/0/materials/3': 'wire',
      '/outlets/3/tiers': [
        { upTo: 10, price: { amount: first, per: 'GJ' } },
        { upTo: 20, price: { amount: second, per: 'GJ' } },
      ],
    });
    expect(wrongAfter(tiers(2, 1))).toEqual([]);
    expect(wrongAfter(tiers(1, 2))).toEqual(['/outlets/3/tiers/1/price: tiers']);
  });
});
