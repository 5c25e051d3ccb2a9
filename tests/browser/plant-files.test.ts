import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { type OpenedPages, openPages } from './opened-pages.js';

let pages: OpenedPages;

beforeEach(async () => {
  pages = await openPages();
});

afterEach(() => pages?.close());

interface Stored {
  readonly title: string;
  readonly discountRate?: number;
  readonly feeds: readonly { readonly id: string; readonly haulage: number }[];
  readonly outlets: readonly { readonly id: string; readonly name?: string }[];
}

const storedOf = (name: string) => JSON.parse(readFileSync(`${pages.folder}/${name}.json`, 'utf8')) as Stored;

const chosen = (text: string, name: string) => ({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });

async function textOf(page: Page, link: string): Promise<string> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('link', { name: link, exact: true }).click(),
  ]);
  return readFileSync(await download.path(), 'utf8');
}

it('a table goes out as CSV, is changed elsewhere, and comes back as one change', async () => {
  const { page, context, faults } = await pages.open();
  await page.goto('/scenarios/works/plant', { waitUntil: 'networkidle' });
  const csv = await textOf(page, 'feeds.csv');
  const input = page.locator('[data-csv="/feeds"]');
  await input.setInputFiles(chosen(csv, 'feeds.csv'));
  await page.getByText('nothing changed').waitFor();

  const changed = csv.replace(',900,', ',400,').replace('\r\nshops', '\r\nnobody,,,,7,,,\r\nshops');
  // As spreadsheets of other countries write it.
  await input.setInputFiles(
    chosen(changed.replaceAll(',', ';').replace('420; 380; 360', '"420; 380; 360"'), 'feeds.csv'),
  );
  await page.getByText('no place for 1, such as nobody, haulage').waitFor();
  const haulage = page.getByLabel('haulage of Tire shops');
  expect(await haulage.inputValue()).toBe('400');
  expect(await haulage.getAttribute('class')).toContain('changed');
  await haulage.focus();
  await page.keyboard.press('Control+z');
  expect(await haulage.inputValue()).toBe('900');
  expect(faults).toEqual([]);
  await context.close();
});

it('a table with a text that looks like a formula comes back as it went', async () => {
  const { page, context } = await pages.open();
  await page.goto('/scenarios/works/plant', { waitUntil: 'networkidle' });
  const csv = await textOf(page, 'outlets.csv');
  expect(csv).toContain(`"'=Play`);
  await page.locator('[data-csv="/outlets"]').setInputFiles(chosen(csv, 'outlets.csv'));
  await page.getByText('nothing changed').waitFor();
  await context.close();
});

it('a scenario goes out as JSON and comes in as one change, which can be undone, or saved', async () => {
  const { page, context, faults } = await pages.open();
  await page.goto('/scenarios/works/plant', { waitUntil: 'networkidle' });
  const text = await textOf(page, 'scenario (.json)');
  const own = JSON.parse(text) as Stored;
  expect(own).toEqual(storedOf('works'));
  const more = { ...own.outlets[0], id: 'more', name: 'Another ground' };
  const brought = { ...own, discountRate: 0.03, outlets: [...own.outlets, more] };
  const haulage = page.getByLabel('haulage of Tire shops');

  await page.locator('[data-import]').setInputFiles(chosen('{ "format": ', 'broken.json'));
  await page.getByText('That file is no JSON').waitFor();
  const cheaper = { ...brought, feeds: own.feeds.map((feed) => ({ ...feed, haulage: 400 })) };
  await page.locator('[data-import]').setInputFiles(chosen(JSON.stringify(cheaper), 'works.json'));
  await page.getByText(/more than as it is saved/).waitFor();
  expect(await haulage.inputValue()).toBe('400');
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByText(/: the same as it is saved/).waitFor();
  expect(await haulage.inputValue()).toBe('900');

  await page.locator('[data-import]').setInputFiles(chosen(JSON.stringify(brought), 'works.json'));
  await page.getByText(/Margin/).waitFor();
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  // The page has no row for the new outlet: it comes anew.
  await page.getByLabel('outlet of Another ground').waitFor();
  expect(storedOf('works').discountRate).toBe(0.03);
  expect(storedOf('works').outlets.map(({ id }) => id)).toContain('more');
  expect(faults).toEqual([]);
  await context.close();
});

it('an entry is copied and removed by keyboard, saved, and back after a reload', async () => {
  const { page, context, faults } = await pages.open();
  await page.goto('/scenarios/works/plant', { waitUntil: 'networkidle' });
  await page.getByRole('button', { name: 'Copy Scrap yard' }).focus();
  await page.keyboard.press('Enter');
  await page.getByText(/Margin/).waitFor();
  await page.getByRole('button', { name: 'Remove Kiln, spot' }).focus();
  await page.keyboard.press('Enter');
  await page.getByText(/JPY less than as it is saved/).waitFor();
  await page.getByRole('button', { name: 'Save', exact: true }).focus();
  await page.keyboard.press('Enter');
  await page.getByText('Saved.', { exact: true }).waitFor();
  expect(storedOf('works').outlets.map(({ id }) => id)).toEqual(['grounds', 'scrap', 'scrap-2']);
  await page.reload();
  expect(await page.getByLabel('outlet of Scrap yard, copy').inputValue()).toBe('Scrap yard, copy');
  expect(faults).toEqual([]);
  await context.close();
});
