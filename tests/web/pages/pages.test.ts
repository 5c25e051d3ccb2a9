import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PlannedDocument } from '../../../src/report/plan-document.js';
import { PAGE_GAP } from '../../../src/web/pages/plan-route.js';
import { builtProgram } from '../../built-program.js';
import { SMALL_WORKS } from '../../report/small-works.js';
import { json, type TestApi, testApi } from '../test-api.js';

let api: TestApi;

beforeAll(async () => {
  await builtProgram();
  api = await testApi();
}, 180_000);

afterAll(() => api?.close());

const page = async (path: string) => {
  const response = await api.app.request(path);
  return { response, text: await response.text() };
};

const planOf = async (scenario: unknown): Promise<PlannedDocument> => {
  const response = await api.send('POST', '/plan', { body: { scenario, gap: PAGE_GAP } });
  return (await json(response)).answer;
};

/** Figures as the reference library of the language writes them, to be held against those of the pages. */
const written = (value: number, digits: number) =>
  new Intl.NumberFormat('en-US', { minimumFractionDigits: digits, maximumFractionDigits: digits })
    .format(value)
    .replace(/^-(0(\.0+)?)$/, '$1');

/** The cells of a table, by its caption. */
function cellsOf(text: string, caption: string): string[][] {
  const table = text.split('<caption>').find((part) => part.startsWith(`${caption}<`));
  const rows = table?.split('</table>')[0].split('<tr>').slice(1) ?? [];
  return rows.map((row) =>
    [...row.matchAll(/<t[hd][^>]*>([\s\S]*?)<\/t[hd]>/g)].map(([, cell]) =>
      cell
        .replace(/<[^>]*>/g, '')
        .replaceAll('&quot;', '"')
        .replaceAll('&#39;', "'")
        .replaceAll('&amp;', '&'),
    ),
  );
}

describe('the page of the plan', () => {
  it('prints the margin of the API to the printed digit, for all months and for each', async () => {
    const plan = await planOf('works');
    const all = await page('/scenarios/works/plan');
    expect(all.text).toContain(`<strong data-figure="margin">${written(plan.margin, 0)} JPY</strong>`);
    for (const [i, { month }] of plan.months.entries()) {
      const { text } = await page(`/scenarios/works/plan?month=${month}`);
      const margin = written(plan.statement.byMonth[i], 0);
      expect(text).toContain(`<strong data-figure="margin">${margin} JPY</strong>`);
    }
  });

  it('prints every figure of the ladder, the statement and the cash as the API has it', async () => {
    const plan = await planOf('works');
    const { text } = await page('/scenarios/works/plan');
    const ladder = cellsOf(text, 'Ladder: where a short ton of whole tire stops and what it brings there');
    for (const rung of plan.ladder.total.filter(({ tires }) => tires > 1e-6)) {
      const each = (amount: number) => written(amount / rung.tires, 0);
      expect(ladder).toContainEqual([
        plan.names.materials[rung.material],
        written(rung.mass, 1),
        written(rung.tires, 1),
        each(rung.price),
        each(rung.tippingFee),
        each(rung.byProducts),
        each(rung.cost),
        each(rung.net),
        written(rung.net, 0),
      ]);
    }
    const statement = cellsOf(text, 'Statement');
    for (const { line, total, presentValue } of plan.statement.lines) {
      expect(statement).toContainEqual([line, written(total, 0), written(presentValue, 0)]);
    }
    const cash = cellsOf(text, 'Cash');
    for (const { month, receipts, payments, net, balance } of plan.cash) {
      const figures = [receipts, payments, net, balance].map((amount) => written(amount, 0));
      expect(cash).toContainEqual([month ?? 'after the horizon', ...figures]);
    }
  });

  it('plans with other numbers that its address names, and says what they change', async () => {
    const changed = structuredClone(SMALL_WORKS) as { feeds: { haulage: number }[] };
    changed.feeds[0].haulage = 400;
    const [before, after] = [await planOf('works'), await planOf(changed)];
    const { text } = await page('/scenarios/works/plan?set=/feeds/shops/haulage=400');
    expect(text).toContain(`<strong data-figure="margin">${written(after.margin, 0)} JPY</strong>`);
    expect(text).toContain(`${written(after.margin - before.margin, 0)} JPY more`);
    expect(text).toContain('Tire shops: haulage 900 → <b>400</b> JPY/short ton');
  });

  it('says of a number that it cannot try what is wrong with it', async () => {
    const { text } = await page('/scenarios/works/plan?number=/feeds/shops/haulage&value=much');
    expect(text).toContain('Tire shops: haulage: &#39;much&#39; is no number.');
    const unknown = await page('/scenarios/works/plan?set=/feeds/nobody/haulage=1');
    expect(unknown.text).toContain('There is no number /feeds/nobody/haulage');
  });

  it('compares with the version that was saved before', async () => {
    const own = await testApi();
    try {
      const [before] = [await planOf('works')];
      const changed = structuredClone(SMALL_WORKS) as { feeds: { haulage: number }[] };
      changed.feeds[0].haulage = 400;
      const etag = (await own.send('GET', '/scenarios/works')).headers.get('ETag') ?? '';
      await own.send('PUT', '/scenarios/works', { body: changed, headers: { 'If-Match': etag } });
      const text = await (await own.app.request('/scenarios/works/plan')).text();
      expect(text).toContain(`more</b> than the version before (1) (${written(before.margin, 0)} JPY)`);
    } finally {
      own.close();
    }
  });

  it('shows what a scenario calls its things as text, whatever they are called', async () => {
    const name = '<img src=x onerror=alert(1)>';
    const scenario = { ...SMALL_WORKS, title: name, feeds: [{ ...SMALL_WORKS.feeds[0], name }] };
    writeFileSync(join(api.folder, 'odd.json'), JSON.stringify(scenario));
    for (const path of [
      '/',
      '/scenarios/odd/plan',
      '/scenarios/odd/plant',
      '/scenarios/odd/offer?offer=new',
    ]) {
      const { text } = await page(path);
      expect(text).toContain('&lt;img src=x onerror=alert(1)&gt;');
      expect(text).not.toContain('<img');
    }
  });
});

describe('what a page loads', () => {
  it('comes from this server alone, and is less than 300 kB the first time', async () => {
    for (const path of [
      '/',
      '/scenarios/works/plan',
      '/scenarios/works/plant',
      '/scenarios/works/what-ifs',
      '/scenarios/works/offer?offer=new',
    ]) {
      const { text, response } = await page(path);
      expect(response.headers.get('Content-Security-Policy')).toMatch(
        /^default-src 'none'; style-src 'self';/,
      );
      const loaded = [...text.matchAll(/(?:src|href)="([^"]*)"/g)].map(([, address]) => address);
      expect(loaded.filter((address) => /^(\w+:)?\/\//.test(address))).toEqual([]);
      const assets = loaded.filter((address) => address.startsWith('/assets/'));
      expect(assets.length).toBeGreaterThan(0);
      let bytes = Buffer.byteLength(text);
      const loading = new Set(assets);
      // A script's parts are found while it is gone through: a set that grows.
      for (const asset of loading) {
        const response = await api.app.request(asset);
        expect(response.status, asset).toBe(200);
        expect(response.headers.get('Cache-Control')).toBe('public, max-age=31536000, immutable');
        const content = await response.text();
        bytes += Buffer.byteLength(content);
        for (const [, part] of content.matchAll(/from '\.\/([^']*)'/g)) loading.add(`/assets/${part}`);
      }
      if (path.endsWith('/plant')) expect(loading.size).toBeGreaterThan(assets.length + 5);
      expect(bytes).toBeLessThan(300_000);
    }
  });

  it('is named by its content, so that an old name is not answered with something else', async () => {
    expect((await page('/assets/style-000000000000.css')).response.status).toBe(404);
  });
});

describe('a page that cannot be shown', () => {
  it('says why, under the status of the API', async () => {
    const missing = await page('/scenarios/nobody/plan');
    expect(missing.response.status).toBe(404);
    expect(missing.text).toContain('No scenario is stored under this name.');
    writeFileSync(join(api.folder, 'broken.json'), '{"format":"cutpoint-scenario/1"}');
    const broken = await page('/scenarios/broken/plan');
    expect(broken.response.status).toBe(409);
    expect(broken.text).toContain('/horizon');
    expect((await page('/')).text).toContain('Broken:');
  });

  it('says that there is no plan where limits and promises cannot all hold', async () => {
    const feeds = [{ ...SMALL_WORKS.feeds[0], committed: 420, available: 420 }];
    const stuck = {
      ...SMALL_WORKS,
      feeds,
      machines: SMALL_WORKS.machines.map((each) => ({ ...each, availability: 0.001, maintenanceHours: 0 })),
    };
    writeFileSync(join(api.folder, 'stuck.json'), JSON.stringify(stuck));
    const { text } = await page('/scenarios/stuck/plan');
    expect(text).toContain('No plan meets all the limits of this scenario together');
    const why = await page('/scenarios/stuck/why');
    expect(why.text).toContain('No plan, and why');
    expect(why.text).toMatch(/hours of Shredder|committed from Tire shops|monthly minimum/);
  });
});

describe('the other pages', () => {
  it('judge an offer as the API does', async () => {
    const offer = {
      id: 'new-offer',
      name: 'Ask',
      buyer: 'Turf firm',
      materials: ['wire-free'],
      from: '2027-11-01',
      to: '2028-01-31',
      price: 60000,
      monthly: { min: 5, max: 20 },
    };
    const terms = new URLSearchParams({
      offer: 'new',
      name: 'Ask',
      buyer: 'Turf firm',
      material: 'wire-free',
      price: '60,000',
      min: '5',
      max: '20',
    });
    const { text } = await page(`/scenarios/works/offer?${terms}`);
    const response = await api.send('POST', '/offer', {
      body: { scenario: 'works', offer, parts: ['displaced'], counting: 'in parts', gap: PAGE_GAP },
    });
    const { answer } = await json(response);
    expect(answer.status).toBe('judged');
    expect(text).toContain(`Ask, Turf firm: ${answer.verdict.toUpperCase()}`);
    expect(text).toContain(`breaks even at ${written(answer.breakEven.price, 0)} JPY/short ton`);
    expect(text).toContain(`${written(Math.abs(answer.gain.presentValue), 0)} JPY (present value)`);
  });

  it('mark the term that is no figure', async () => {
    const { text } = await page('/scenarios/works/offer?offer=new&price=lots');
    expect(text).toMatch(/id="f-price"[^>]*value="lots"[^>]*aria-invalid="true"/);
  });

  it('draw the curve of a number by its plain name, and give its points as CSV', async () => {
    const query = new URLSearchParams({
      what: 'sweep',
      number: '/feeds/shops/haulage',
      from: '0',
      to: '2000',
    });
    const { text } = await page(`/scenarios/works/what-ifs?${query}`);
    expect(text).toContain('present value over Tire shops: haulage');
    const body = {
      scenario: 'works',
      parameter: { pointers: ['/feeds/shops/haulage'], kind: 'value' },
      from: 0,
      to: 2000,
    };
    const { answer } = await json(await api.send('POST', '/sweep', { body }));
    const points = cellsOf(text, 'Points');
    for (const { value } of answer.points)
      expect(points.map(([, amount]) => amount)).toContain(written(value, 0));
    const csv = await (await api.app.request(`/scenarios/works/what-ifs/sweep.csv?${query}`)).text();
    expect(csv.trim().split('\r\n')).toHaveLength(answer.points.length + 1);
    expect(csv).toContain(String(answer.points[0].value));
  });

  it('explain the plan with the sentences of the API', async () => {
    const { text } = await page('/scenarios/works/why');
    const { answer } = await json(
      await api.send('POST', '/explain', { body: { scenario: 'works', gap: PAGE_GAP, shifts: 0 } }),
    );
    expect(answer.sentences.length).toBeGreaterThan(2);
    for (const sentence of answer.sentences)
      expect(text).toContain(sentence.replaceAll("'", '&#39;').replaceAll('"', '&quot;'));
  });

  it('hold every figure of the scenario in a cell under its pointer', async () => {
    const { text } = await page('/scenarios/works/plant');
    expect(text).toMatch(/data-pointer="\/feeds\/shops\/tippingFee"[^>]*value="210 \/ tire"/);
    expect(text).toMatch(/data-pointer="\/feeds\/shops\/available"[^>]*value="420; 380; 360"/);
    expect(text).toMatch(/data-pointer="\/operation\/windows\/evening\/powerPrice"[^>]*value="18; 20; 21"/);
    const csv = await (await api.app.request('/scenarios/works/plant/feeds.csv')).text();
    expect(csv.split('\r\n')[1]).toBe('shops,Tire shops,car-tires,210 / tire,900,200,420; 380; 360,30');
  });

  it('give the plan as one page and as a workbook', async () => {
    const one = await api.app.request('/scenarios/works/plan.html');
    expect(await one.text()).not.toMatch(/<script|<link|src=/);
    const workbook = await api.app.request('/scenarios/works/plan.xlsx');
    expect(new Uint8Array(await workbook.arrayBuffer()).slice(0, 2)).toEqual(new Uint8Array([0x50, 0x4b]));
  });
});
