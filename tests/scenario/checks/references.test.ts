import { describe, expect, test } from 'vitest';
import { DELETED, toldAfter, wrongAfter } from '../edited.js';

describe('a reference', () => {
  test.each<[string, unknown, string?]>([
    ['/stores/0/materials/1', 'truck-tyres'],
    ['/feeds/1/material', 'truck-tyres'],
    ['/machines/0/crew', 'frnt'],
    ['/steps/2/machine', 'rasp'],
    ['/steps/2/input', 'shreds'],
    ['/outlets/0/material', 'course'],
    ['/contracts/0/price/index', 'coale'],
    ['/disposals/0/materials/0', 'flufff'],
    ['/steps/2/yields/separation/remainder', 'dusts'],
    ['/steps/3/yields/sizing/under', 'fines'],
    ['/steps/3/yields/sizing/decks/1/over', 'coarser'],
  ])('to nothing is told at %s', (pointer, value) => {
    expect(wrongAfter({ [pointer]: value })).toEqual([`${pointer}: unknown reference`]);
  });

  test('that is a key is told at the key', () => {
    expect(wrongAfter({ '/steps/0/yields/shares': { shred: 0.99, dst: 0.01 } })).toEqual([
      '/steps/0/yields/shares/dst: unknown reference',
    ]);
    expect(
      wrongAfter({
        '/steps/2/yields/separation/to/fluf': { fiber: 0.88 },
        '/steps/2/yields/separation/to/fluff': DELETED,
      }),
    ).toEqual(['/steps/2/yields/separation/to/fluf: unknown reference']);
    expect(wrongAfter({ '/steps/3/yields/sizing/losses': { fluf: 0.01 } })).toEqual([
      '/steps/3/yields/sizing/losses/fluf: unknown reference',
    ]);
    expect(wrongAfter({ '/contracts/1/price/byMaterial': { coarse: 1, corse: 1 } })).toEqual([
      '/contracts/1/price/byMaterial/corse: unknown reference',
    ]);
  });

  test('that is misspelt is told with the nearest id', () => {
    expect(toldAfter({ '/feeds/0/material': 'car-tyres' })).toEqual({
      message: "feeds[0] 'retailers', material: there is no material 'car-tyres'.",
      remedy: "Write 'car-tires', or declare 'car-tyres' under `materials`.",
    });
  });

  test('to something of another kind says what that is', () => {
    expect(toldAfter({ '/steps/1/machine': 'turf' })).toEqual({
      message: "steps[1] 'shred-trucks', machine: 'turf' is an outlet, not a machine.",
      remedy: "Write 'shredder', 'rasper', 'granulator' or 'mill', or declare 'turf' under `machines`.",
    });
  });

  test('to something that is misshapen is no reference to nothing', () => {
    expect(wrongAfter({ '/machines/3/maintenanceHours': 'few' })).toEqual([
      '/machines/3/maintenanceHours: wrong type',
    ]);
  });

  test('is checked in a misshapen entry too', () => {
    expect(wrongAfter({ '/machines/0/count': '1', '/machines/0/crew': 'nobody' })).toEqual([
      '/machines/0/count: wrong type',
      '/machines/0/crew: unknown reference',
    ]);
  });

  test('from an offer is checked like that of a contract', () => {
    expect(wrongAfter({ '/offers/0/price/index': 'tin' })).toEqual([
      '/offers/0/price/index: unknown reference',
    ]);
  });
});
