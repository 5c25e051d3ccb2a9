import { type ChildProcess, spawn } from 'node:child_process';
import { copyFileSync, existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { builtProgram } from '../built-program.js';
import { SMALL_WORKS } from '../report/small-works.js';

export const WIDE = { width: 1280, height: 900 };
export const NARROW = { width: 390, height: 844 };

/** A server over a folder of its own, and a browser. */
export interface OpenedPages {
  readonly url: string;
  readonly folder: string;
  /** A page that writes down whatever is wrong with it. */
  open(options?: {
    viewport?: { width: number; height: number };
    dark?: boolean;
    scripts?: boolean;
  }): Promise<WatchedPage>;
  close(): Promise<void>;
}

export interface WatchedPage {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Errors on the console, exceptions, and requests to anywhere else. */
  readonly faults: string[];
}

const OFFER = {
  id: 'lawns',
  name: 'Infill for lawns',
  buyer: 'Lawn layers (invented)',
  materials: ['wire-free'],
  from: '2027-11-01',
  to: '2028-01-31',
  price: 26000,
  monthly: { min: 10, max: 20 },
  shortfall: { charge: 2000 },
  freight: 900,
  paymentDays: 30,
};

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Opens the shipped month as `month`, the shipped twelve months as `year`, and a small plant with an offer as `works`. */
export async function openPages(): Promise<OpenedPages> {
  const { main } = await builtProgram();
  const folder = mkdtempSync(join(tmpdir(), 'cutpoint-pages-'));
  for (const [shipped, name] of [
    ['one-month', 'month'],
    ['twelve-months', 'year'],
  ]) {
    copyFileSync(
      fileURLToPath(new URL(`../../scenarios/${shipped}.json`, import.meta.url)),
      join(folder, `${name}.json`),
    );
  }
  writeFileSync(
    join(folder, 'works.json'),
    JSON.stringify({ ...SMALL_WORKS, offers: [OFFER] }, undefined, 2),
  );
  const server = spawn(process.execPath, [main, 'serve', '--port', '0', '--scenarios', folder]);
  const url = await addressOf(server);
  const browser = await launched();
  return {
    url,
    folder,
    open: (options = {}) => opened(browser, url, options),
    close: async () => {
      await browser.close();
      server.kill();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

function launched(): Promise<Browser> {
  const known = ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find((path) => existsSync(path));
  return chromium.launch({
    ...(known === undefined ? { channel: 'chromium' } : { executablePath: known }),
    headless: true,
    args: FLAGS,
  });
}

async function opened(
  browser: Browser,
  url: string,
  { viewport = WIDE, dark = false, scripts = true }: Parameters<OpenedPages['open']>[0] & object,
): Promise<WatchedPage> {
  const context = await browser.newContext({
    viewport,
    baseURL: url,
    colorScheme: dark ? 'dark' : 'light',
    javaScriptEnabled: scripts,
    acceptDownloads: true,
  });
  context.setDefaultTimeout(60_000);
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') faults.push(message.text());
  });
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('request', (request) => {
    if (!request.url().startsWith(url) && !request.url().startsWith('data:')) faults.push(request.url());
  });
  return { page, context, faults };
}

/** @throws Error where the server ends before it listens */
function addressOf(server: ChildProcess): Promise<string> {
  let said = '';
  return new Promise((resolve, reject) => {
    const hear = (chunk: Buffer) => {
      said += chunk.toString();
      const [, url] = /listens at (http:\/\/\S+?)[\s(]/.exec(said) ?? [];
      if (url !== undefined) resolve(url);
    };
    server.stdout?.on('data', hear);
    server.stderr?.on('data', hear);
    server.on('exit', () => reject(new Error(`the server ended: ${said}`)));
  });
}
