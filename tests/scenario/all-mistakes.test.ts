import { expect, test } from 'vitest';
import { PLANT_CHECKS } from '../../src/plant/plant-checks.js';
import { checkDocument } from '../../src/scenario/parse.js';
import { DELETED, edited } from './edited.js';

/** One mistake a line: where it is made, what is written there, the problem that it must bring. */
const MISTAKES: readonly (readonly [pointer: string, value: unknown, problem: string])[] = [
  ['/format', 'cutpoint-scenario/0', '/format: unknown format'],
  ['/discountRate', '8 %', '/discountRate: wrong type'],
  ['/operation/windows/1/from', '21:30', '/operation/windows/1: overlap'],
  ['/operation/demand/charge', [11.5, 11, 10], '/operation/demand/charge: series length'],
  ['/materials/0/stock/opening', 901, '/materials/0/stock/opening: stock'],
  ['/materials/4/colour', 'black', '/materials/4/colour: unknown key'],
  ['/materials/11', { id: 'ash', form: 'residue' }, '/materials/11: dead end'],
  ['/stores/0/materials', ['car-tires', 'powder'], '/stores/0/materials/1: stock'],
  ['/feeds/0/committed', 750, '/feeds/0/committed: conflict'],
  ['/feeds/0/site', 'north', '/feeds/0/site: reserved'],
  ['/feeds/1/material', 'car-tyres', '/feeds/1/material: unknown reference'],
  ['/feeds/1/response/1/available', 251, ''],
  ['/crews/0/people', -3, '/crews/0/people: out of range'],
  ['/crews/1/wages', 28, '/crews/1/wages: unknown key'],
  ['/crews/1/wage', DELETED, ''],
  ['/machines/0/maintenanceHours', 9000, '/machines/0/maintenanceHours: hours'],
  ['/machines/1/crew', 'turf', '/machines/1/crew: unknown reference'],
  ['/steps/0/throughput', 5, '/steps/0: circuit'],
  ['/steps/1/machine', DELETED, '/steps/1/machine: missing'],
  ['/steps/4/yields/shares/powder', 0.96, '/steps/4/yields/shares: yields'],
  ['/outlets/0/tiers/1/price', 230, '/outlets/0/tiers/1/price: tiers'],
  ['/outlets/0/to', '2027-02-30', '/outlets/0/to: calendar'],
  ['/outlets/1/price', { amount: 0.28, per: 'kilo' }, '/outlets/1/price/per: malformed'],
  ['/outlets/2/price', { amount: 4, per: 'tire' }, '/outlets/2/price/per: unit needs a figure'],
  ['/outlets/3/price', Number.NaN, '/outlets/3/price: wrong type'],
  ['/contracts/0/monthly/min', [20, 250], '/contracts/0/monthly/min: contract'],
  ['/contracts/0/term/delivered', 2100, '/contracts/0/term/delivered: contract'],
  ['/contracts/0/price/index', 'coel', '/contracts/0/price/index: unknown reference'],
  ['/contracts/1/to', '2026-06-30', '/contracts/1/to: calendar'],
  ['/contracts/1/quality/0/measure', 'zinc', '/contracts/1/quality/0/measure: contract'],
  ['/disposals/0/limit', null, '/disposals/0/limit: wrong type'],
  ['/disposals/1', { id: 'landfill', materials: ['dust'], charge: 90 }, '/disposals/1/id: duplicate id'],
  ['/uncertainty/0/target', '/outlets/turf/prices', '/uncertainty/0/target: unknown reference'],
  ['/uncertainty/3/distribution/mode', 1.6, '/uncertainty/3/distribution: out of range'],
];

test('a scenario with more than 25 mistakes of shape and of sense reports each by its pointer, and nothing else', () => {
  const document = edited(Object.fromEntries(MISTAKES.map(([pointer, value]) => [pointer, value])));
  const checked = checkDocument(document, PLANT_CHECKS);
  const told = checked.ok ? [] : checked.problems.map(({ pointer, code }) => `${pointer}: ${code}`);
  const expected = MISTAKES.flatMap(([, , problem]) => (problem === '' ? [] : [problem]));
  expect(expected.length).toBeGreaterThan(25);
  expect([...told].sort()).toEqual([...expected, ...TABLE_ABOVE_ITS_FEED].sort());
});

// One figure breaks two rules: the table rises, and goes beyond what the feed has.
const TABLE_ABOVE_ITS_FEED = [
  '/feeds/1/response/1/available: conflict',
  '/feeds/1/response/1/available: conflict',
];
