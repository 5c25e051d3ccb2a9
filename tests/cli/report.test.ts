import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { formatMoney } from '../../src/report/figure.js';
import { plannedDocumentOf, SMALL_WORKS } from '../report/small-works.js';
import { run } from './recording-terminal.js';

const input = JSON.stringify(SMALL_WORKS);

it('report writes the plan as one page with nothing to load, its margin that of the plan', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'cutpoint-report-'));
  try {
    const file = join(folder, 'plan.html');
    expect(await run(['report', '-', '-o', file], { input })).toEqual({ code: 0, out: '', err: '' });
    const page = readFileSync(file, 'utf8');
    const { margin, units } = await plannedDocumentOf(SMALL_WORKS);
    expect(page).toContain(`<strong data-figure="margin">${formatMoney(margin, units.currency)}</strong>`);
    expect(page).not.toMatch(/<script|<link|<img|src=|href="http|@import|url\(http/);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

it('report of a month prints that month, and refuses one that is not there', async () => {
  const one = await run(['report', '-', '--month', '2027-12'], { input });
  expect(one.out).toContain('Margin, 2027-12');
  const none = await run(['report', '-', '--month', '2030-01'], { input });
  expect(none.code).toBe(2);
  expect(none.err).toContain('2027-11 is the first');
});

it('plan --xlsx writes a workbook beside what it prints', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'cutpoint-workbook-'));
  try {
    const file = join(folder, 'plan.xlsx');
    const { code, out } = await run(['plan', '-', '--xlsx', file], { input });
    expect(code).toBe(0);
    expect(out).toContain('margin');
    expect(readFileSync(file).subarray(0, 2).toString()).toBe('PK');
  } finally {
    rmSync(folder, { recursive: true });
  }
});
