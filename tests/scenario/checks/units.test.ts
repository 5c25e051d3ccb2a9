import { describe, expect, test } from 'vitest';
import { DELETED, toldAfter, wrongAfter } from '../edited.js';

const PER_TIRE = { amount: 1, per: 'tire' };
const PER_GJ = { amount: 1, per: 'GJ' };
const NEEDS = 'unit needs a figure';

describe('a rate per tire or by heating value', () => {
  test.each([
    ['/outlets/0/freight', PER_TIRE],
    ['/outlets/1/price', { amount: 1, per: 'MMBtu' }],
    ['/outlets/0/tiers/1/price', PER_GJ],
    ['/feeds/1/haulage', PER_GJ],
    ['/steps/4/wear', PER_TIRE],
    ['/disposals/0/charge', PER_GJ],
    ['/contracts/1/freight', PER_GJ],
    ['/contracts/1/price/byMaterial/coarse', PER_GJ],
    ['/contracts/0/price/floor', PER_TIRE],
    ['/materials/1/stock/holdingCost', PER_GJ],
    ['/offers/0/packing', PER_GJ],
  ])('needs that figure of its material: %s', (pointer, rate) => {
    expect(wrongAfter({ [pointer]: rate })).toEqual([`${pointer}/per: ${NEEDS}`]);
  });

  test('is told once in a series, at the first', () => {
    expect(wrongAfter({ '/outlets/1/price': [3, PER_TIRE] })).toEqual([`/outlets/1/price/1/per: ${NEEDS}`]);
    expect(wrongAfter({ '/outlets/1/price': [PER_TIRE, PER_TIRE] })).toEqual([
      `/outlets/1/price/0/per: ${NEEDS}`,
    ]);
  });

  test('is right where the figure is stated', () => {
    expect(wrongAfter({ '/feeds/1/haulage': PER_TIRE, '/steps/2/wear': PER_GJ })).toEqual([]);
  });

  test('names every material that lacks the figure', () => {
    expect(toldAfter({ '/disposals/0/haulage': PER_GJ })).toEqual({
      message:
        "disposals[0] 'landfill', haulage.per: a rate per GJ needs the heating value of 'fluff' and 'dust'.",
      remedy: "State `heatingValue` (MJ/kg) of 'fluff' and 'dust', or give the rate by mass.",
    });
  });

  test('of an index needs the figure of the contracts that follow it', () => {
    expect(wrongAfter({ '/materials/3/heatingValue': DELETED })).toEqual([
      `/indices/0/base/per: ${NEEDS}`,
      `/contracts/0/price/base/byMaterial/chip/per: ${NEEDS}`,
    ]);
    expect(wrongAfter({ '/indices/2': { id: 'spare', base: PER_TIRE, values: 1 } })).toEqual([]);
  });

  test('of a material whose figure is misshapen is told there only', () => {
    expect(wrongAfter({ '/materials/0/tireMass': '9 kg' })).toEqual(['/materials/0/tireMass: wrong type']);
  });
});

describe('an index in points', () => {
  test('has plain figures', () => {
    expect(wrongAfter({ '/indices/1/values': [101, { amount: 3, per: 'kg' }] })).toEqual([
      '/indices/1/values/1: conflict',
    ]);
    expect(wrongAfter({ '/indices/1/base': { amount: 3, per: 'kg' } })).toEqual([
      '/indices/1/base: conflict',
    ]);
  });

  test('has a base that can be divided by', () => {
    expect(wrongAfter({ '/indices/1/base': 0 })).toEqual(['/indices/1/base: out of range']);
    expect(wrongAfter({ '/indices/0/base': 0 })).toEqual([]);
  });
});
