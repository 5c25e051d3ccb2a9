import { describe, expect, test } from 'vitest';
import { checkDocument } from '../../src/scenario/parse.js';
import { DELETED, edited, toldAfter, wrongAfter, wrongIn } from './edited.js';
import { sampleScenario } from './sample.js';

describe('the sample', () => {
  test('is right, and comes back as it was written', () => {
    expect(checkDocument(sampleScenario())).toEqual({ ok: true, scenario: sampleScenario() });
  });
});

describe('a mistake of shape', () => {
  test.each<[string, unknown, string[]]>([
    ['/discountRate', '0.08', ['/discountRate: wrong type']],
    ['/discountRate', Number.NaN, ['/discountRate: wrong type']],
    ['/discountRate', Number.POSITIVE_INFINITY, ['/discountRate: wrong type']],
    ['/discountRate', null, ['/discountRate: wrong type']],
    ['/discountRate', -1, ['/discountRate: out of range']],
    ['/title', '', ['/title: out of range']],
    ['/title', DELETED, ['/title: missing']],
    ['/units/mass', 'tonnes', ['/units/mass: malformed']],
    ['/units/currency', 'eur', ['/units/currency: malformed']],
    ['/horizon/months', 0, ['/horizon/months: out of range']],
    ['/horizon/months', 61, ['/horizon/months: out of range']],
    ['/horizon/months', 1.5, ['/horizon/months: wrong type']],
    ['/horizon/firstMonth', '2027-13', ['/horizon/firstMonth: calendar']],
    ['/operation/closed/0', '2027-02-30', ['/operation/closed/0: calendar']],
    ['/operation/closed/0', '2027-2-3', ['/operation/closed/0: malformed']],
    ['/operation/closed/0', '0050-01-01', ['/operation/closed/0: calendar']],
    ['/horizon/firstMonth', '0050-01', ['/horizon/firstMonth: calendar']],
    ['/operation/windows/0/from', '24:00', ['/operation/windows/0/from: malformed']],
    ['/operation/windows/0/to', '9:00', ['/operation/windows/0/to: malformed']],
    ['/operation/windows/0/days/0', 'monday', ['/operation/windows/0/days/0: malformed']],
    ['/materials/0/assay/Steel', 0.1, ['/materials/0/assay/Steel: malformed']],
    ['/materials/0/assay/steel', 15, ['/materials/0/assay/steel: out of range']],
    ['/machines/0/count', 1.5, ['/machines/0/count: wrong type']],
    ['/machines/0/availability', [0.8, 1.2], ['/machines/0/availability/1: out of range']],
    ['/steps/1/throughput', 0, ['/steps/1/throughput: out of range']],
    ['/outlets/0/tiers', [], ['/outlets/0/tiers: out of range']],
    ['/contracts/1/call/by', 'plant', ['/contracts/1/call/by: malformed']],
    ['/uncertainty/0/target', 'outlets/turf', ['/uncertainty/0/target: malformed']],
    ['/stores/0', null, ['/stores/0: wrong type']],
    ['/feeds', {}, ['/feeds: wrong type']],
  ])('at %s (%o) is told there', (pointer, value, problems) => {
    expect(wrongAfter({ [pointer]: value })).toEqual(problems);
  });

  test('in a document that is none is told at its root', () => {
    for (const document of [null, 3, 'x', [], undefined, () => 1, new Map()]) {
      expect(wrongIn(document).map((problem) => problem.split(':')[0])).toEqual(['']);
    }
  });

  test('is told of every key that is missing', () => {
    expect(wrongIn({})).toEqual([
      '/feeds: missing',
      '/format: unknown format',
      '/horizon: missing',
      '/machines: missing',
      '/materials: missing',
      '/operation: missing',
      '/steps: missing',
      '/title: missing',
      '/units: missing',
    ]);
  });
});

describe('inside a union, a mistake', () => {
  test.each<[string, unknown, string]>([
    ['/outlets/1/price', { amount: 1, per: 'lbs' }, '/outlets/1/price/per: malformed'],
    ['/outlets/1/price', [1, { amount: '1', per: 'lb' }], '/outlets/1/price/1/amount: wrong type'],
    ['/outlets/1/price', { from: '2027-01', values: [1, '2'] }, '/outlets/1/price/values/1: wrong type'],
    ['/outlets/1/price', { from: '2027-01' }, '/outlets/1/price/values: missing'],
    ['/outlets/1/price', { amount: 1 }, '/outlets/1/price/per: missing'],
    ['/outlets/1/price', {}, '/outlets/1/price: malformed'],
    ['/outlets/1/price', '12', '/outlets/1/price: wrong type'],
    ['/contracts/0/price/index', 7, '/contracts/0/price/index: wrong type'],
    ['/contracts/0/price/floor', -1, ''],
    [
      '/contracts/0/price/base/byMaterial/chip',
      [
        { amount: 1, per: 'GJ' },
        { amount: 1, per: 'ton' },
      ],
      '/contracts/0/price/base/byMaterial/chip/1/per: malformed',
    ],
    [
      '/contracts/0/price/base',
      { from: '2027-01', values: [1, { amount: 2, per: 'ton' }] },
      '/contracts/0/price/base/values/1/per: malformed',
    ],
    ['/steps/0/yields', { shares: { shred: '1' } }, '/steps/0/yields/shares/shred: wrong type'],
    [
      '/steps/3/yields/sizing/decks/0/efficiency',
      92,
      '/steps/3/yields/sizing/decks/0/efficiency: out of range',
    ],
    ['/steps/0/yields', {}, '/steps/0/yields: malformed'],
    ['/feeds/0/response', { elasticity: 1.6, at: 2 }, '/feeds/0/response/elasticity: out of range'],
    ['/feeds/1/response/0/fee', { amount: 1, per: 'ton' }, '/feeds/1/response/0/fee/per: malformed'],
    ['/uncertainty/0/distribution/kind', 'lognormall', '/uncertainty/0/distribution/kind: malformed'],
    ['/uncertainty/0/distribution', { kind: 'normal' }, '/uncertainty/0/distribution/sigma: missing'],
    ['/contracts/0/quality/0/measure', 'Heating', '/contracts/0/quality/0/measure: malformed'],
  ])('at %s (%o) is told as deep as it stands', (pointer, value, problem) => {
    expect(wrongAfter({ [pointer]: value })).toEqual(problem === '' ? [] : [problem]);
  });

  test('of two forms at once is told as a conflict', () => {
    expect(wrongAfter({ '/steps/0/yields/sizing': {} })).toEqual(['/steps/0/yields/sizing: conflict']);
  });
});

describe('an unknown key', () => {
  test('is told each by itself, with the nearest key that is free', () => {
    expect(wrongAfter({ '/outlets/0/frieght': 3, '/outlets/0/color': 'red' })).toEqual([
      '/outlets/0/frieght: unknown key',
      '/outlets/0/color: unknown key',
    ]);
    expect(toldAfter({ '/machines/1/maintenancehours': 3 })).toEqual({
      message: "machines[1] 'rasper': `maintenancehours` is no key of the format.",
      remedy: 'Rename it `maintenanceHours`, or delete it.',
    });
  });

  test('that stands for a missing one is told once', () => {
    expect(wrongAfter({ '/steps/0/machine': DELETED, '/steps/0/machin': 'shredder' })).toEqual([
      '/steps/0/machin: unknown key',
    ]);
    expect(wrongAfter({ '/outlets/1/price': DELETED, '/outlets/1/prize': 3 })).toEqual([
      '/outlets/1/prize: unknown key',
    ]);
    expect(wrongAfter({ '/outlets/1/price': { amout: 3, per: 'lb' } })).toEqual([
      '/outlets/1/price/amout: unknown key',
    ]);
  });

  test('hides nothing else in its entry', () => {
    expect(wrongAfter({ '/feeds/0/colour': 'red', '/feeds/0/material': 'car-tyres' })).toEqual([
      '/feeds/0/material: unknown reference',
      '/feeds/0/colour: unknown key',
    ]);
  });

  test('named __proto__ is refused and never read', () => {
    const document = JSON.parse(
      JSON.stringify(sampleScenario()).replace('"tireMass":9.1', '"__proto__":{"tireMass":9.1}'),
    );
    expect(wrongIn(document)).toEqual([
      '/materials/0/__proto__: malformed',
      '/feeds/0/tippingFee/per: unit needs a figure',
      '/feeds/0/committedFee/0/per: unit needs a figure',
      '/feeds/0/response/at/per: unit needs a figure',
      '/steps/0/wear/per: unit needs a figure',
    ]);
  });
});

describe('what is reserved for later', () => {
  test.each<[string, unknown]>([
    ['/machines/0/site', 'north'],
    ['/crews/0/site', 'north'],
    ['/feeds/0/site', 'north'],
    ['/stores/0/site', 'north'],
    ['/operation/windows/0/site', 'north'],
    ['/outlets/1/price/currency', 'USD'],
    ['/contracts/0/packing/currency', 'USD'],
    ['/horizon/weeks', 8],
    ['/horizon/firstWeek', '2027-W01'],
    ['/horizon/quarters', 2],
  ])('is refused with that word: %s', (pointer, value) => {
    expect(wrongAfter({ [pointer]: value })).toEqual([`${pointer}: reserved`]);
    expect(toldAfter({ [pointer]: value }).message).toContain('reserved for later');
  });

  test('a horizon in weeks does not also lack its months', () => {
    expect(wrongAfter({ '/horizon': { firstMonth: '2027-01', weeks: 8 } })).toEqual([
      '/horizon/weeks: reserved',
    ]);
  });

  test('a site elsewhere is no key at all', () => {
    expect(wrongAfter({ '/outlets/0/site': 'north' })).toEqual(['/outlets/0/site: unknown key']);
  });
});

describe('the version of the format', () => {
  test('that is unknown is told with the one that is read, and hides nothing', () => {
    const checked = checkDocument(edited({ '/format': 'cutpoint-scenario/2', '/title': 3 }));
    expect(checked.ok ? [] : checked.problems).toEqual([
      {
        pointer: '/format',
        code: 'unknown format',
        message:
          'format: "cutpoint-scenario/2" is no format that is known here; this program reads cutpoint-scenario/1.',
        remedy:
          'Rewrite the scenario in cutpoint-scenario/1, or use the version of the program that reads "cutpoint-scenario/2".',
      },
      {
        pointer: '/title',
        code: 'wrong type',
        message: 'title: found 3, not text.',
        remedy: 'Write text: Name of the scenario.',
      },
    ]);
  });

  test('that is missing is told with what to add', () => {
    expect(toldAfter({ '/format': DELETED }).remedy).toBe('Add "format": "cutpoint-scenario/1".');
  });
});

describe('what is told', () => {
  test.each<[Record<string, unknown>, string, string]>([
    [
      { '/feeds/1/available': '250' },
      'feeds[1] \'haulers\', available: "250" is text, not a number.',
      'Write 250 without quotation marks.',
    ],
    [
      { '/operation/closed/0': '2027-02-30' },
      'operation.closed[0]: 2027-02-30 does not exist: February 2027 has 28 days.',
      'Write a date that exists, such as 2027-02-28.',
    ],
    [
      { '/operation/closed/0': '2028-02-30' },
      'operation.closed[0]: 2028-02-30 does not exist: February 2028 has 29 days.',
      'Write a date that exists, such as 2028-02-29.',
    ],
    [
      { '/steps/1/throughput': -2 },
      "steps[1] 'shred-trucks', throughput: -2 must be above 0.",
      'Write a number above 0.',
    ],
    [
      { '/crews/0/staffing': 'by shift' },
      'crews[0] \'front\', staffing: "by shift" is not allowed here.',
      'Write "by the shift".',
    ],
  ])('names the place, the amounts and what to do: %o', (values, message, remedy) => {
    expect(toldAfter(values)).toEqual({ message, remedy });
  });
});
