import { describe, expect, test } from 'vitest';
import { DELETED, toldAfter, wrongAfter } from '../edited.js';

describe('a contract', () => {
  test('has a minimum within its maximum, month by month', () => {
    expect(wrongAfter({ '/contracts/0/monthly/max': [200, 24] })).toEqual([
      '/contracts/0/monthly/min: contract',
    ]);
    expect(wrongAfter({ '/contracts/0/monthly/max': [20, 25] })).toEqual([]);
    expect(wrongAfter({ '/offers/0/monthly/min': 51 })).toEqual(['/offers/0/monthly/min: contract']);
  });

  test('has a term minimum within its maximum', () => {
    expect(wrongAfter({ '/contracts/0/term/min': 2001 })).toEqual(['/contracts/0/term/min: contract']);
    expect(wrongAfter({ '/contracts/0/term/min': 2000 })).toEqual([]);
  });

  test('has delivered no more than its term takes', () => {
    expect(wrongAfter({ '/contracts/0/term/delivered': 2001 })).toEqual([
      '/contracts/0/term/delivered: contract',
    ]);
    expect(wrongAfter({ '/contracts/0/term/delivered': 2000 })).toEqual([]);
    expect(wrongAfter({ '/contracts/0/term/delivered': 2001, '/contracts/0/term/max': DELETED })).toEqual([]);
  });

  test('called by the buyer expects a call between its minimum and maximum', () => {
    expect(wrongAfter({ '/contracts/1/call/expected': [30, 61] })).toEqual([
      '/contracts/1/call/expected: contract',
    ]);
    expect(wrongAfter({ '/contracts/1/monthly/min': 31 })).toEqual(['/contracts/1/call/expected: contract']);
    expect(wrongAfter({ '/contracts/1/monthly/min': 30 })).toEqual([]);
    expect(toldAfter({ '/contracts/1/call/expected': [30, 61] }).message).toBe(
      "contracts[1] 'track', call.expected: the expected call of 61 is above the maximum of 60 in 2027-02.",
    );
  });

  test('limits a measure on one side or both, once, the right way round', () => {
    const quality = '/contracts/0/quality/0';
    expect(wrongAfter({ [`${quality}/min`]: DELETED })).toEqual([`${quality}: contract`]);
    expect(wrongAfter({ [`${quality}/max`]: 27 })).toEqual([`${quality}/min: contract`]);
    expect(wrongAfter({ [`${quality}/max`]: 28 })).toEqual([]);
    expect(wrongAfter({ '/contracts/0/quality/1': { measure: 'heatingValue', max: 40 } })).toEqual([
      '/contracts/0/quality/1: contract',
    ]);
  });

  test('limits a share by a share', () => {
    expect(wrongAfter({ '/contracts/1/quality/0/max': 2 })).toEqual([
      '/contracts/1/quality/0/max: out of range',
    ]);
    expect(toldAfter({ '/contracts/1/quality/0/max': 2 }).remedy).toBe(
      'Write a share between 0 and 1: 5 % is 0.05.',
    );
  });

  test('charges for a missed term only where the term has a minimum', () => {
    expect(wrongAfter({ '/contracts/0/term': DELETED })).toEqual([
      '/contracts/0/shortfall/termCharge: contract',
    ]);
    expect(wrongAfter({ '/contracts/0/term/min': DELETED })).toEqual([
      '/contracts/0/shortfall/termCharge: contract',
    ]);
    expect(wrongAfter({ '/contracts/0/term/min': '300' })).toEqual(['/contracts/0/term/min: wrong type']);
    expect(
      wrongAfter({ '/contracts/0/term': DELETED, '/contracts/0/shortfall/termCharge': DELETED }),
    ).toEqual([]);
  });

  test('by material prices exactly its materials', () => {
    const prices = '/contracts/0/price/base/byMaterial';
    expect(wrongAfter({ [`${prices}/chip`]: DELETED })).toEqual([`${prices}: contract`]);
    expect(wrongAfter({ [`${prices}/fine`]: 200 })).toEqual([`${prices}/fine: contract`]);
    expect(wrongAfter({ '/contracts/1/price/byMaterial': {} })).toEqual([
      '/contracts/1/price/byMaterial: contract',
    ]);
  });

  test('whose material is misspelt is told so only', () => {
    expect(wrongAfter({ '/contracts/1/materials/0': 'corse' })).toEqual([
      '/contracts/1/materials/0: unknown reference',
    ]);
    expect(wrongAfter({ '/contracts/1/price/byMaterial': { corse: 205 } })).toEqual([
      '/contracts/1/price/byMaterial/corse: unknown reference',
    ]);
  });

  test('has a floor that is not above the ceiling, in one unit', () => {
    expect(wrongAfter({ '/contracts/0/price/floor': 61 })).toEqual(['/contracts/0/price/floor: contract']);
    expect(wrongAfter({ '/contracts/0/price/floor': 60 })).toEqual([]);
    // 35 MJ/kg: 1.8 a GJ is 63 a tonne of wire-free rubber; 1.7 a GJ is 59.5.
    expect(wrongAfter({ '/contracts/0/price/floor': { amount: 1.8, per: 'GJ' } })).toEqual([
      '/contracts/0/price/floor: contract',
    ]);
    expect(wrongAfter({ '/contracts/0/price/floor': { amount: 1.7, per: 'GJ' } })).toEqual([]);
  });
});
