import { describe, expect, test } from 'vitest';
import { DELETED, edited, toldAfter, wrongAfter, wrongIn } from '../edited.js';

const THREE = [1, 1, 1];

describe('a series', () => {
  test.each([
    '/operation/windows/0/powerPrice',
    '/operation/demand/charge',
    '/materials/1/stock/capacity',
    '/materials/1/stock/min',
    '/materials/1/stock/holdingCost',
    '/feeds/0/tippingFee',
    '/feeds/0/committedFee',
    '/feeds/0/haulage',
    '/feeds/0/committed',
    '/feeds/1/available',
    '/crews/0/wage',
    '/machines/1/availability',
    '/machines/3/maintenanceHours',
    '/steps/1/throughput',
    '/steps/1/energy',
    '/steps/1/wear',
    '/steps/0/circuit/passThroughput',
    '/outlets/1/price',
    '/outlets/1/limit',
    '/outlets/0/tiers/0/upTo',
    '/outlets/0/tiers/1/price',
    '/outlets/0/freight',
    '/outlets/0/packing',
    '/indices/0/values',
    '/contracts/0/monthly/min',
    '/contracts/1/monthly/max',
    '/contracts/0/shortfall/charge',
    '/contracts/1/call/expected',
    '/contracts/1/price/byMaterial/coarse',
    '/contracts/0/price/base/byMaterial/chip',
    '/contracts/0/freight',
    '/contracts/0/packing',
    '/offers/0/price/base',
    '/offers/0/monthly/max',
    '/disposals/0/charge',
    '/disposals/0/haulage',
    '/disposals/0/limit',
    '/fixedCosts/0/perMonth',
  ])('as a list has one value a month: %s', (pointer) => {
    expect(wrongAfter({ [pointer]: THREE })).toContain(`${pointer}: series length`);
    expect(wrongAfter({ [pointer]: [] }).join()).toContain(`${pointer}: out of range`);
  });

  test.each([
    ['2027-01', [1, 1]],
    ['2026-11', [1, 1, 1, 1]],
    ['2026-12', [1, 1, 1, 1]],
  ])('from %s on covers the horizon', (from, values) => {
    expect(wrongAfter({ '/outlets/2/price': { from, values } })).toEqual([]);
  });

  test.each([
    ['2027-02', [1, 1, 1]],
    ['2026-12', [1, 1]],
    ['2027-01', [1]],
    ['2027-03', [1, 1]],
  ])('from %s on with values %j does not cover it', (from, values) => {
    expect(wrongAfter({ '/outlets/2/price': { from, values } })).toEqual(['/outlets/2/price: series length']);
  });

  test('is told with both lengths', () => {
    expect(toldAfter({ '/crews/0/wage': THREE })).toEqual({
      message: "crews[0] 'front', wage: the list has 3 values for 2 months.",
      remedy: 'Give 2 values, or one figure for all months.',
    });
    expect(toldAfter({ '/outlets/2/price': { from: '2027-02', values: [1, 2] } }).message).toBe(
      "outlets[2] 'compounders', price: the 2 values from 2027-02 on do not cover the horizon from 2027-01 to 2027-02.",
    );
  });

  test('of a window is checked although another window is misshapen', () => {
    expect(
      wrongAfter({ '/operation/windows/0/powerPrice': THREE, '/operation/windows/1/powerPrice': 'cheap' }),
    ).toEqual([
      '/operation/windows/0/powerPrice: series length',
      '/operation/windows/1/powerPrice: wrong type',
    ]);
  });

  test('is not judged by a horizon that is not known', () => {
    expect(wrongIn(edited({ '/horizon/months': DELETED, '/crews/0/wage': THREE }))).toEqual([
      '/horizon/months: missing',
    ]);
  });
});
