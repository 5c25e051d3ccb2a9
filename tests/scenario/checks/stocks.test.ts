import { describe, expect, test } from 'vitest';
import { DELETED, toldAfter, wrongAfter } from '../edited.js';

describe('a stock', () => {
  test('opens within its capacity of the first month', () => {
    expect(wrongAfter({ '/materials/1/stock/opening': 401, '/stores/0/capacity': 2000 })).toEqual([
      '/materials/1/stock/opening: stock',
    ]);
    expect(wrongAfter({ '/materials/1/stock/opening': 400 })).toEqual([]);
  });

  test('has a minimum within its capacity, month by month', () => {
    expect(wrongAfter({ '/materials/0/stock/min': 901 })).toEqual(['/materials/0/stock/min: stock']);
    expect(wrongAfter({ '/materials/0/stock/min': [900, 950] })).toEqual([]);
    expect(toldAfter({ '/materials/0/stock/min': [900, 951] }).message).toBe(
      "materials[0] 'car-tires', stock.min: the minimum of 951 is above the capacity of 950 in 2027-02.",
    );
  });

  test('closes within its capacity of the last month, stated or not', () => {
    expect(wrongAfter({ '/materials/0/stock/closing/min': 951 })).toEqual([
      '/materials/0/stock/closing/min: stock',
    ]);
    expect(wrongAfter({ '/materials/0/stock/closing/min': 950 })).toEqual([]);
    expect(wrongAfter({ '/materials/1/stock/capacity': [400, 20] })).toEqual([
      '/materials/1/stock/opening: stock',
    ]);
    expect(
      wrongAfter({ '/materials/1/stock/capacity': [400, 20], '/materials/1/stock/closing': { min: 20 } }),
    ).toEqual([]);
  });
});

describe('a store', () => {
  test('is of materials that are held', () => {
    expect(wrongAfter({ '/stores/0/materials/2': 'chip' })).toEqual(['/stores/0/materials/2: stock']);
    expect(wrongAfter({ '/stores/0/materials/2': 'shred' })).toEqual([]);
    expect(toldAfter({ '/stores/0/materials/2': 'chip' }).message).toBe(
      "stores[0] 'yard', materials[2]: 'chip' has no stock, so that it is never held.",
    );
  });

  test('is large enough for what it opens with', () => {
    expect(wrongAfter({ '/stores/0/capacity': 169 })).toEqual(['/stores/0/capacity: stock']);
    expect(wrongAfter({ '/stores/0/capacity': 170 })).toEqual([]);
  });

  test('of a material whose stock is misshapen is not judged', () => {
    expect(wrongAfter({ '/materials/1/stock': 'much' })).toEqual(['/materials/1/stock: wrong type']);
    expect(wrongAfter({ '/materials/1/stock': DELETED })).toEqual(['/stores/0/materials/1: stock']);
  });
});
