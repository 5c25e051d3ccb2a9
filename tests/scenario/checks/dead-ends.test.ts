import { describe, expect, test } from 'vitest';
import { DELETED, toldAfter, wrongAfter } from '../edited.js';

describe('a material', () => {
  test('that is made goes somewhere', () => {
    expect(wrongAfter({ '/outlets/3': DELETED })).toEqual(['/materials/5: dead end']);
    expect(toldAfter({ '/outlets/3': DELETED })).toEqual({
      message:
        "materials[5] 'wire': the material is made, and has no outlet, contract, disposal, step or stock.",
      remedy: 'Add an outlet, contract, disposal, step or stock for it: nothing leaves the plant for free.',
    });
  });

  test('that comes in goes somewhere', () => {
    const feed = { id: 'extra', material: 'ash', tippingFee: 1, available: 1 };
    expect(wrongAfter({ '/materials/11': { id: 'ash', form: 'other' }, '/feeds/2': feed })).toEqual([
      '/materials/11: dead end',
    ]);
  });

  test('that is only declared goes nowhere either', () => {
    expect(wrongAfter({ '/materials/11': { id: 'ash', form: 'other' } })).toEqual([
      '/materials/11: dead end',
    ]);
  });

  test.each<[string, Record<string, unknown>]>([
    ['a stock', { '/materials/5/stock': {} }],
    ['an outlet', { '/outlets/3': { id: 'scrap', material: 'wire', price: -3 } }],
    ['a disposal', { '/disposals/0/materials/3': 'wire' }],
    ['an offer', { '/offers/0/materials/1': 'wire' }],
    ['a step', { '/steps/4/input': 'wire', '/disposals/0/materials/3': 'fine' }],
  ])('may end in %s', (_, way) => {
    const values = '/outlets/3' in way ? way : { '/outlets/3': DELETED, ...way };
    expect(wrongAfter(values)).toEqual([]);
  });

  test('is no dead end because its only way out is misspelt or misshapen elsewhere', () => {
    expect(wrongAfter({ '/outlets/3/material': 'wires' })).toEqual([
      '/outlets/3/material: unknown reference',
    ]);
    expect(wrongAfter({ '/outlets/3/price': 'scrap price' })).toEqual(['/outlets/3/price: wrong type']);
    expect(wrongAfter({ '/materials/1/stock': 7 })).toEqual(['/materials/1/stock: wrong type']);
  });
});
