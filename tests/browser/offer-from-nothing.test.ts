import { readFileSync } from 'node:fs';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { NARROW, type OpenedPages, openPages, WIDE } from './opened-pages.js';

let pages: OpenedPages;

beforeEach(async () => {
  pages = await openPages();
});

afterEach(() => pages?.close());

interface Stored {
  readonly offers?: readonly { readonly id: string }[];
  readonly contracts: readonly { readonly id: string; readonly price: unknown; readonly monthly: unknown }[];
}

for (const viewport of [WIDE, NARROW]) {
  it(`an offer is written from nothing, judged, saved and signed, at ${viewport.width} px`, async () => {
    const { page, context, faults } = await pages.open({ viewport });
    const stored = () => JSON.parse(readFileSync(`${pages.folder}/month.json`, 'utf8')) as Stored;
    await page.goto('/scenarios/month/offer');
    await page.getByText('Fill in the terms').waitFor();
    const fill = async (label: string, text: string) => {
      await page.getByLabel(label, { exact: true }).fill(text);
      await page.getByLabel(label, { exact: true }).press('Tab');
    };
    await page.getByLabel('Material').selectOption('wire-free');
    await fill('Name', 'Rubber for a track');
    await fill('Price', 'a lot');
    await page.getByText('Write a number, such as 1234.5.').waitFor();
    await fill('Price', '400');
    await fill('At most, a month', '30');
    const verdict = page.locator('[data-figure=verdict]');
    await verdict.getByText('TAKE.').waitFor();
    await fill('Price', '1');
    await verdict.getByText(/TURN DOWN|DECLINE|TAKE ONLY ABOVE/i).waitFor();
    await fill('Price', '400');
    await verdict.getByText('TAKE.').waitFor();

    await page.getByRole('button', { name: 'Save the offer' }).click();
    await page.waitForURL(/offer=rubber-for-a-track$/);
    expect(stored().offers?.map(({ id }) => id)).toEqual(['rubber-for-a-track']);
    await page.getByRole('button', { name: 'Sign it into the scenario' }).click();
    await page.waitForURL(/\/plan$/);
    await page.getByRole('rowheader', { name: 'Rubber for a track' }).first().waitFor();
    const { offers = [], contracts } = stored();
    expect(offers).toEqual([]);
    expect(contracts.at(-1)).toMatchObject({ id: 'rubber-for-a-track', price: 400, monthly: { max: 30 } });
    // What the browser itself writes of the offer that was not there yet.
    expect(faults.filter((fault) => !fault.includes('404'))).toEqual([]);
    await context.close();
  });
}
