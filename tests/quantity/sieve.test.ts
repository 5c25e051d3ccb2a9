import { describe, expect, test } from 'vitest';
import { openingName, readSieve, SIEVES } from '../../src/quantity/sieve.js';

/** ASTM E11 number and nominal opening in mm; 4, 8, 10, 16, 30, 50, 100, 200 seen in print, the rest from memory. */
const E11: readonly [number, number][] = [
  [4, 4.75],
  [6, 3.35],
  [8, 2.36],
  [10, 2],
  [12, 1.7],
  [14, 1.4],
  [16, 1.18],
  [18, 1],
  [20, 0.85],
  [25, 0.71],
  [30, 0.6],
  [35, 0.5],
  [40, 0.425],
  [45, 0.355],
  [50, 0.3],
  [60, 0.25],
  [70, 0.212],
  [80, 0.18],
  [100, 0.15],
  [120, 0.125],
  [140, 0.106],
  [170, 0.09],
  [200, 0.075],
  [230, 0.063],
  [270, 0.053],
  [325, 0.045],
  [400, 0.038],
];

describe('designations of ASTM E11 and ISO 3310-1', () => {
  test.each(E11)('No. %d is %d mm, by number and by size', (number, opening) => {
    expect(readSieve(`No. ${number}`)).toEqual({ kind: 'opening', opening });
    expect(readSieve(openingName(opening))).toEqual({ kind: 'opening', opening });
  });

  test.each(['No. 30', 'no 30', 'NO.30', '600 um', '600 µm', '600 μm', '0.6 mm', '0.60mm'])(
    '%s is 0.6 mm',
    (name) => {
      expect(readSieve(name)).toEqual({ kind: 'opening', opening: 0.6 });
    },
  );

  test('a number is an opening in mm, in the table or not', () => {
    expect(readSieve(2.5)).toEqual({ kind: 'opening', opening: 2.5 });
  });

  test('superseded openings of older tables are refused, and the current ones named', () => {
    expect(readSieve('2.38 mm')).toEqual({ kind: 'unknown', nearest: ['2.36 mm', '2.8 mm'] });
    expect(readSieve('590 um')).toEqual({ kind: 'unknown', nearest: ['600 um', '500 um'] });
  });

  test('an unknown number names the nearest', () => {
    expect(readSieve('No. 31')).toEqual({ kind: 'unknown', nearest: ['No. 30', 'No. 35'] });
    expect(readSieve('fine')).toMatchObject({ kind: 'unknown' });
  });

  test('sieves get finer down the table and no name stands twice', () => {
    const openings = SIEVES.map(({ opening }) => opening);
    expect(openings).toEqual([...openings].sort((a, b) => b - a));
    expect(new Set(SIEVES.map(({ name }) => name)).size).toBe(SIEVES.length);
  });
});
