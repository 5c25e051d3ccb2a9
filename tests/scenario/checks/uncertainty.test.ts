import { describe, expect, test } from 'vitest';
import { toldAfter, wrongAfter } from '../edited.js';

const TARGET = '/uncertainty/3/target';

describe('a target', () => {
  test.each([
    '/outlets/turf/tiers/1/price',
    '/outlets/0/tiers/1/price',
    '/outlets/scrap/price/values/1',
    '/outlets/moulders/price/amount',
    '/contracts/kiln/price/base/byMaterial/chip',
    '/discountRate',
    '/operation/demand/charge',
    '/steps/mill-powder/yields/shares/powder',
  ])('is a figure or a series: %s', (target) => {
    expect(wrongAfter({ [TARGET]: target })).toEqual([]);
  });

  test.each([
    '/outlets/turff/tiers/1/price',
    '/outlets/turf/price',
    '/nothing',
    '/outlets/turf/tiers/2/price',
    '/outlets/constructor',
    '/outlets/turf/__proto__',
    '/outlets/turf/~2',
  ])('that leads nowhere is told: %s', (target) => {
    expect(wrongAfter({ [TARGET]: target })).toEqual([`${TARGET}: unknown reference`]);
  });

  test.each([
    '/title',
    '/outlets/turf',
    '/outlets/turf/tiers',
    '/contracts/kiln/price',
    '/contracts/kiln/materials',
    '/horizon/months',
    '/machines/shredder/count',
    '/uncertainty/0/distribution/sigma',
  ])('that can not vary is told: %s', (target) => {
    expect(wrongAfter({ [TARGET]: target })).toEqual([`${TARGET}: wrong type`]);
  });

  test('that is misspelt is told with the nearest pointer', () => {
    expect(toldAfter({ [TARGET]: '/outlets/moulder/price' })).toEqual({
      message: "uncertainty[3].target: '/outlets/moulder/price' leads to nothing.",
      remedy: "Write '/outlets/moulders/price'.",
    });
  });

  test('stands once, whether by id or by position', () => {
    expect(wrongAfter({ [TARGET]: '/outlets/1/price' })).toEqual([`${TARGET}: conflict`]);
  });

  test('that is misshapen is told there only', () => {
    expect(wrongAfter({ '/outlets/1/price': '0.28' })).toEqual(['/outlets/1/price: wrong type']);
  });
});

describe('a distribution', () => {
  test('has its factors in order', () => {
    const uniform = (low: number, high: number) => ({
      '/uncertainty/2/distribution': { kind: 'uniform', low, high },
    });
    const triangular = (low: number, mode: number, high: number) => ({
      '/uncertainty/3/distribution': { kind: 'triangular', low, mode, high },
    });
    expect(wrongAfter(uniform(1.2, 0.8))).toEqual(['/uncertainty/2/distribution: out of range']);
    expect(wrongAfter(uniform(1, 1))).toEqual([]);
    expect(wrongAfter(triangular(0.8, 0.7, 1.2))).toEqual(['/uncertainty/3/distribution: out of range']);
    expect(wrongAfter(triangular(0.8, 1.3, 1.2))).toEqual(['/uncertainty/3/distribution: out of range']);
    expect(wrongAfter(triangular(0.8, 0.8, 1.2))).toEqual([]);
  });

  test('correlates with a group', () => {
    expect(wrongAfter({ '/uncertainty/2/correlation': 0.5 })).toEqual([
      '/uncertainty/2/correlation: conflict',
    ]);
    expect(wrongAfter({ '/uncertainty/2/correlation': 0.5, '/uncertainty/2/group': 'granulate' })).toEqual(
      [],
    );
  });
});
