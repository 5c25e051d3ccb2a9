import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { NARROW, type OpenedPages, openPages, WIDE } from './opened-pages.js';

let pages: OpenedPages;

beforeAll(async () => {
  pages = await openPages();
});

afterAll(() => pages?.close());

for (const viewport of [WIDE, NARROW]) {
  it(`a risk that is stopped keeps its part, marked as partial, at ${viewport.width} px`, async () => {
    const { page, context, faults } = await pages.open({ viewport });
    await page.goto('/scenarios/month/what-ifs?what=risk');
    await page.waitForLoadState('networkidle');
    await page.getByLabel('Draws').fill('20000');
    await page.getByLabel('Seed').fill(String(viewport.width));
    await page.getByRole('button', { name: 'Draw', exact: true }).click();
    await page.getByText(/^[1-9]\d* of 20000$/).waitFor();
    expect(await page.getByRole('progressbar').count()).toBe(1);
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.getByText('Partial answer: it was stopped early.').waitFor();

    const job = new URL(page.url()).searchParams.get('job');
    const response = await fetch(`${pages.url}/jobs/${job}/answer`);
    const { answer } = (await response.json()) as {
      answer: { status: string; evaluated: number; values: number[]; distribution: { mean: number } };
    };
    expect(answer.status).toBe('partial');
    expect(answer.evaluated).toBeLessThan(20_000);
    const shown = await page.locator('main').textContent();
    expect(shown).toContain(`Stopped after ${answer.evaluated} of 20000 draws`);
    const mean = new Intl.NumberFormat('en-US', { minimumFractionDigits: 2, maximumFractionDigits: 2 });
    expect(shown).toContain(`${mean.format(answer.distribution.mean)} EUR on average`);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('link', { name: 'risk-draws.csv' }).click(),
    ]);
    const lines = readFileSync(await download.path(), 'utf8')
      .trim()
      .split('\r\n');
    expect(lines).toHaveLength(answer.values.length + 1);
    expect(faults).toEqual([]);
    await context.close();
  });
}
