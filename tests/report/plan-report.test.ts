import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import type { PlannedDocument } from '../../src/report/plan-document.js';
import { printPlan } from '../../src/report/plan-report.js';
import { displayWidth } from '../../src/report/printable.js';
import { golden } from './golden.js';
import { plannedDocumentOf, SHIFT_WORKS, SMALL_WORKS } from './small-works.js';

let small: PlannedDocument;
let shifts: PlannedDocument;

beforeAll(async () => {
  small = await plannedDocumentOf(SMALL_WORKS);
  shifts = await plannedDocumentOf(SHIFT_WORKS);
});

describe('the printed plan', () => {
  test('of several months is as in its golden file', () => {
    const text = printPlan(small);
    expect(text).toBe(golden('three-months.txt', text));
  });

  test('of one month of several is as in its golden file', () => {
    const text = printPlan(small, { month: '2027-12' });
    expect(text).toBe(golden('three-months-2027-12.txt', text));
  });

  test('of one month with whole shifts is as in its golden file', () => {
    const text = printPlan(shifts);
    expect(text).toBe(golden('one-month-by-the-shift.txt', text));
  });

  test('of the shipped month is as in its golden file', async () => {
    const file = new URL('../../scenarios/one-month.json', import.meta.url);
    const text = printPlan(await plannedDocumentOf(JSON.parse(readFileSync(file, 'utf8'))));
    expect(text).toBe(golden('one-month.txt', text));
  });

  test('details of all months hold those of each month', () => {
    const all = printPlan(small, 'all');
    for (const { month } of small.months) expect(all).toContain(`--- ${month} ---`);
  });

  test('no line is wider than 100 columns and none ends in a space', () => {
    const texts = [printPlan(small), printPlan(small, 'all'), printPlan(shifts)];
    const lines = texts.join('').split('\n');
    expect(lines.filter((line) => displayWidth(line) > 100)).toEqual([]);
    expect(lines.filter((line) => line.endsWith(' '))).toEqual([]);
  });

  test('is in plain characters: no control but the line feed, no colour', () => {
    const text = printPlan({ ...small, title: 'a\u001b[31mb\u0007\nc' });
    expect(text.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
  });

  test('says how much a bound leaves, rounded up to the minor unit', () => {
    const { certificate } = small;
    const open = { ...small, certificate: { ...certificate, bound: certificate.objective + 1234.01 } };
    expect(printPlan(open)).toContain('No plan earns more than 1,235 JPY');
  });

  test('says that nothing was proved where nothing was', () => {
    const { bound, ...certificate } = small.certificate;
    expect(bound).toBeDefined();
    expect(printPlan({ ...small, certificate })).toContain('was not proved');
  });
});

test('a plan that was stopped says so', () => {
  expect(printPlan({ ...shifts, status: 'stopped' })).toContain('Stopped early');
});
