import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type OpenedPages, openPages } from './opened-pages.js';

let pages: OpenedPages;

beforeAll(async () => {
  pages = await openPages();
});

afterAll(() => pages?.close());

const CHARGE = '/disposals/landfill/charge';

async function tryCharge(page: Page, charge: number): Promise<void> {
  await page.getByLabel('Try another number').selectOption(CHARGE);
  await page.getByLabel('Value').fill(String(charge));
  await page.getByLabel('Value').press('Enter');
}

/** Milliseconds from the key to the new figures on the screen, measured in the page. */
const MEASURE = `{
  const old = document.querySelector('[data-figure=margin]');
  addEventListener('submit', () => {
    const began = performance.now();
    const look = () => {
      const shown = document.querySelector('[data-figure=margin]');
      if (shown !== null && shown !== old) window.taken = performance.now() - began;
      else requestAnimationFrame(look);
    };
    look();
  }, { capture: true, once: true });
}`;

for (const [scenario, called] of [
  ['month', 'one month'],
  ['year', 'twelve months, crews by the shift'],
] as const) {
  it(`one number changed: the figures come first, the reasons after (${called})`, async ({ annotate }) => {
    const { page, context, faults } = await pages.open();
    await page.goto(`/scenarios/${scenario}/plan`);
    await page.getByText('More: what binds').waitFor();
    // The reasons of one month may come before anybody looks.
    await page.route(/\/why\?/, async (route) => {
      await new Promise((resolve) => setTimeout(resolve, 1000));
      await route.continue().catch(() => undefined);
    });
    const taken: number[] = [];
    for (const charge of [91, 97, 103, 109]) {
      await page.evaluate(MEASURE);
      await tryCharge(page, charge);
      await page.getByText(`→ ${charge} EUR`).waitFor();
      expect(await page.getByText('More is being worked out').count()).toBe(1);
      taken.push(Number(await page.evaluate('window.taken')));
    }
    await page.getByText('More: what binds').waitFor();
    const milliseconds = taken.map((each) => Math.round(each)).join(', ');
    await annotate(`${called}: ${milliseconds} ms from the key to the new figures`);
    expect(faults).toEqual([]);
    await context.close();
  });
}

it('another change ends the work on the reasons of the one before', async () => {
  const { page, context } = await pages.open();
  const ended: string[] = [];
  page.on('requestfailed', (request) => ended.push(request.url()));
  await page.goto('/scenarios/year/plan');
  await page.getByText('More: what binds').waitFor();
  const asked = page.waitForRequest((request) => request.url().includes('/why'));
  await tryCharge(page, 91);
  await asked;
  await tryCharge(page, 97);
  await page.getByText('→ 97 EUR').waitFor();
  await page.getByText('More: what binds').waitFor();
  expect(ended.map((url) => new URL(url).pathname)).toEqual(['/scenarios/year/why']);
  await context.close();
});

it('says that it works while the figures are on their way', async () => {
  const { page, context } = await pages.open();
  await page.route(/number=/, async (route) => {
    await new Promise((resolve) => setTimeout(resolve, 400));
    await route.continue();
  });
  await page.goto('/scenarios/month/plan');
  await page.getByText('More: what binds').waitFor();
  await tryCharge(page, 91);
  const word = page.getByRole('status').filter({ hasText: 'Working it out' });
  await word.waitFor();
  expect(await word.boundingBox()).toMatchObject({ x: expect.any(Number) });
  expect((await word.boundingBox())?.x).toBeGreaterThan(0);
  expect(await page.locator('main').getAttribute('aria-busy')).toBe('true');
  await page.getByText('→ 91 EUR').waitFor();
  expect(await page.locator('main').getAttribute('aria-busy')).toBeNull();
  await context.close();
});
