import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { NARROW, type OpenedPages, openPages, WIDE } from './opened-pages.js';

let pages: OpenedPages;

beforeAll(async () => {
  pages = await openPages();
});

afterAll(() => pages?.close());

const ask = async (path: string, body: unknown) => {
  const response = await fetch(`${pages.url}${path}`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json' },
    body: JSON.stringify(body),
  });
  return ((await response.json()) as { answer: Record<string, never> }).answer;
};

const money = (value: number, digits: number) =>
  new Intl.NumberFormat('en-US', { minimumFractionDigits: digits, maximumFractionDigits: digits }).format(
    value,
  );

for (const [called, viewport] of [
  ['1280 px', WIDE],
  ['390 px', NARROW],
] as const) {
  describe(`at ${called}`, () => {
    it('the owner reads the plan of the month, tries a number, and prints it', async () => {
      const { page, context, faults } = await pages.open({ viewport });
      await page.goto('/');
      await page.getByRole('link', { name: 'Brindlemoor tire works, one month', exact: true }).click();
      const answer = page.locator('.answer strong');
      const plan = await ask('/plan', { scenario: 'month', gap: 0.002 });
      expect(await answer.textContent()).toBe(`${money(plan.margin, 2)} EUR`);
      await page.getByText('More: what binds').waitFor();
      const drawing = viewport === WIDE ? '.wide-only .ladder' : '.narrow-only .ladder';
      expect(await page.locator(drawing).isVisible()).toBe(true);

      await page.getByLabel('Try another number').selectOption('/disposals/landfill/charge');
      expect(await page.getByLabel('Value').inputValue()).not.toBe('');
      await page.getByLabel('Value').fill('200');
      await page.getByRole('button', { name: 'Plan with it' }).click();
      await page.getByText('Tried, not saved').waitFor();
      expect(await page.locator('[data-figure=change]').textContent()).toMatch(/ EUR less$/);
      await page.getByRole('link', { name: /as it was/ }).click();
      await page.getByText('Tried, not saved').waitFor({ state: 'detached' });
      expect(await answer.textContent()).toBe(`${money(plan.margin, 2)} EUR`);

      for (const format of ['A4', 'Letter'] as const) {
        const print = await page.pdf({ format });
        expect(print.subarray(0, 5).toString()).toBe('%PDF-');
      }
      expect(faults).toEqual([]);
      await context.close();
    });

    it('sales judges an offer, counters, and saves it', async () => {
      const { page, context, faults } = await pages.open({ viewport });
      await page.goto('/scenarios/works/offer');
      const verdict = page.locator('[data-figure=verdict]');
      const first = await verdict.textContent();
      expect(first).toMatch(/^Infill for lawns, Lawn layers \(invented\): [A-Z]/);
      await page.getByLabel('Price', { exact: true }).fill(viewport === WIDE ? '40000' : '41000');
      await page.getByLabel('Price', { exact: true }).press('Tab');
      await page
        .locator('#result')
        .getByText(/Signed at 4[01],000 JPY/)
        .waitFor();
      expect(await verdict.textContent()).toMatch(/: TAKE\.$/);
      await page.getByText('Quote ladder').first().waitFor();
      await page.getByRole('button', { name: 'Save the offer' }).click();
      await page.waitForURL(/offer=lawns$/);
      const stored = JSON.parse(readFileSync(`${pages.folder}/works.json`, 'utf8'));
      expect(stored.offers[0].price).toBe(viewport === WIDE ? 40000 : 41000);
      expect(faults).toEqual([]);
      await context.close();
    });

    it('finance sweeps the tipping fee and takes the curve along', async () => {
      const { page, context, faults } = await pages.open({ viewport });
      await page.goto('/scenarios/works/what-ifs');
      await page.getByLabel('Number').selectOption('/feeds/shops/tippingFee');
      expect(await page.getByLabel('From').inputValue()).toBe('105');
      await page.getByRole('button', { name: 'Draw the curve' }).click();
      await page.locator('.cutpoint-chart').first().waitFor();
      expect(await page.locator('.cutpoint-chart').count()).toBe(2);
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('link', { name: 'sweep.csv' }).click(),
      ]);
      const curve = await ask('/sweep', {
        scenario: 'works',
        parameter: { pointers: ['/feeds/shops/tippingFee'], kind: 'value' },
        from: 105,
        to: 315,
      });
      const points = curve.points as unknown as { value: number }[];
      const lines = readFileSync(await download.path(), 'utf8')
        .trim()
        .split('\r\n');
      expect(lines).toHaveLength(points.length + 1);
      for (const { value } of points) expect(lines.join('\n')).toContain(String(value));
      expect(faults).toEqual([]);
      await context.close();
    });
  });
}

describe('editing the plant', () => {
  it('shows what a change does, refuses what is wrong beside its cell, undoes, saves, and warns of a conflict', async () => {
    const { page, context, faults } = await pages.open();
    await page.goto('/scenarios/works/plant');
    await page.waitForLoadState('networkidle');
    const haulage = page.getByLabel('haulage of Tire shops');
    const said = page.locator('[data-said]');
    await haulage.fill('-5');
    await haulage.press('Tab');
    await page.getByText(/to put right/).waitFor();
    expect(await haulage.getAttribute('aria-invalid')).toBe('true');
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await haulage.inputValue()).toBe('900');
    await haulage.fill('400');
    await haulage.press('Tab');
    await page.getByText(/JPY more than as it is saved/).waitFor();

    const stored = `${pages.url}/scenarios/works`;
    const theirs = await fetch(stored);
    const other = { ...((await theirs.json()) as object), discountRate: 0.05 };
    const etag = theirs.headers.get('ETag') ?? '';
    await fetch(stored, {
      method: 'PUT',
      headers: { 'Content-Type': 'application/json', 'If-Match': etag },
      body: JSON.stringify(other),
    });
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByText(/Somebody else has saved another version/).waitFor();
    await page.getByRole('button', { name: 'Save mine over theirs' }).click();
    await page.getByText('Saved.', { exact: true }).waitFor();
    const saved = (await (await fetch(stored)).json()) as { feeds: { haulage: number }[] };
    expect(saved.feeds[0].haulage).toBe(400);
    expect(await said.textContent()).toBe('Saved.');
    // The browser itself writes the refused write on its console.
    expect(faults.filter((fault) => !fault.includes('412'))).toEqual([]);
    await context.close();
  });

  it('takes cells from a spreadsheet, as one change', async () => {
    const { page, context } = await pages.open();
    await page.goto('/scenarios/month/plant');
    await page.waitForLoadState('networkidle');
    await page.getByLabel('committed of Tire workshops').focus();
    await page.evaluate(`{
      const clipboardData = new DataTransfer();
      clipboardData.setData('text/plain', '300\\t990\\n155\\t250\\n');
      document.activeElement.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
    }`);
    expect(await page.getByLabel('available of Council collection').inputValue()).toBe('250');
    await page.getByText(/Margin .* EUR/).waitFor();
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await page.getByLabel('available of Council collection').inputValue()).toBe('240');
    expect(await page.getByLabel('committed of Tire workshops').inputValue()).toBe('290');
    await context.close();
  });
});

it('without scripts every page can be read and every form still asks', async () => {
  const { page, context, faults } = await pages.open({ scripts: false });
  await page.goto('/scenarios/month/plan');
  await page.getByLabel('Try another number').selectOption('/disposals/landfill/charge');
  await page.getByLabel('Value').fill('200');
  await page.getByRole('button', { name: 'Plan with it' }).click();
  expect(await page.locator('[data-figure=change]').textContent()).toMatch(/ EUR less$/);
  await page.getByRole('link', { name: /^Why:/ }).click();
  await page.locator('.sentences li').nth(2).waitFor();
  expect(await page.getByText('What binds').count()).toBeGreaterThan(0);
  await page.goto('/scenarios/works/plant');
  expect(await page.getByText('can be read, not edited').count()).toBe(1);
  expect(faults).toEqual([]);
  await context.close();
});
