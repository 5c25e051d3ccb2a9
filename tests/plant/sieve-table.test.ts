import { expect, test } from 'vitest';
import { parseSieveTable } from '../../src/plant/sieve-table.js';

test('openings by number, size or mm, with or without headings, in any order', () => {
  const text = '# measured\nsieve,passing %\nNo. 30,12 %\n\n"2.36 mm";99.5\n1.18\t61\r\n300 um,4\n';
  expect(parseSieveTable(text)).toEqual({
    ok: true,
    points: [
      { opening: 0.6, passing: 0.12 },
      { opening: 2.36, passing: 0.995 },
      { opening: 1.18, passing: 0.61 },
      { opening: 0.3, passing: 0.04 },
    ],
  });
});

test('every line that is wrong is named', () => {
  const reading = parseSieveTable('No. 31,50\n1.18,abc\n0.6,120\n0.3\n-1,5\n2.36,90\n2,95\n2.0,96\n');
  expect(reading.ok ? [] : reading.problems.map(({ line }) => line)).toEqual([1, 2, 3, 4, 5, 6, 8]);
});

test('a table without rows is refused', () => {
  expect(parseSieveTable('sieve,passing\n')).toMatchObject({ ok: false });
  expect(parseSieveTable('')).toMatchObject({ ok: false });
});
