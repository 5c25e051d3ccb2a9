import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PlannedDocument } from '../../../src/report/plan-document.js';
import { scenarioNumbers } from '../../../src/report/scenario-numbers.js';
import { PAGE_GAP } from '../../../src/web/pages/plan-route.js';
import { rankedItems } from '../../../src/web/pages/what-if-question.js';
import { builtProgram } from '../../built-program.js';
import { SMALL_WORKS } from '../../report/small-works.js';
import { json, type TestApi, testApi } from '../test-api.js';

/** In a currency with two digits, so that figures seldom agree by chance, and with something uncertain. */
const WORKS = {
  ...SMALL_WORKS,
  title: 'Works in euro (invented)',
  units: { mass: 'short ton', currency: 'EUR' },
  contracts: SMALL_WORKS.contracts?.map(({ shortfall: _, monthly, ...promise }) => ({
    ...promise,
    ...(monthly === undefined ? {} : { monthly: { min: 30 } }),
  })),
  uncertainty: [
    { target: '/outlets/scrap/price', distribution: { kind: 'lognormal', sigma: 0.2 } },
    { target: '/contracts/mats/monthly/min', distribution: { kind: 'lognormal', sigma: 1.5 } },
  ],
};
const OTHER = {
  ...WORKS,
  title: 'The same, cheaper haulage (invented)',
  feeds: [{ ...WORKS.feeds[0], haulage: 400 }],
};
const OFFER = {
  id: 'new-offer',
  name: 'Ask',
  buyer: 'Turf firm (invented)',
  materials: ['wire-free'],
  from: '2027-11-01',
  to: '2028-01-31',
  price: 26000,
  monthly: { min: 5, max: 20 },
};
const TERMS = `offer=new&name=Ask&buyer=${encodeURIComponent(OFFER.buyer)}&material=wire-free&price=26000&min=5&max=20`;

let api: TestApi;

beforeAll(async () => {
  await builtProgram();
  api = await testApi();
  writeFileSync(join(api.folder, 'euro.json'), JSON.stringify(WORKS));
  writeFileSync(join(api.folder, 'other.json'), JSON.stringify(OTHER));
}, 180_000);

afterAll(() => api?.close());

/** Every number of a document, however deep. */
function numbersOf(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap(numbersOf);
}

/** Numbers as a page may print them: with up to four digits, in percent, without their sign. */
function printedOf(numbers: readonly number[]): Set<string> {
  const formats = [0, 1, 2, 3, 4].map(
    (digits) =>
      new Intl.NumberFormat('en-US', { minimumFractionDigits: digits, maximumFractionDigits: digits }),
  );
  const printed = new Set(['-', '']);
  for (const number of numbers) {
    for (const value of [number, 100 * number].filter(Number.isFinite))
      for (const format of formats) printed.add(format.format(Math.abs(value)));
  }
  return printed;
}

interface ShownTable {
  readonly caption: string;
  /** Texts of the cells with figures, totals apart. */
  readonly figures: readonly string[];
}

function tablesOf(page: string): ShownTable[] {
  return page
    .split('<table')
    .slice(1)
    .map((part) => {
      const [table] = part.split('</table>');
      const [, caption = ''] = /<caption>([\s\S]*?)<\/caption>/.exec(table) ?? [];
      const body = table.slice(table.indexOf('<tbody'), table.indexOf('</tbody>'));
      const figures = [...body.matchAll(/<td class="figure">([^<]*)<\/td>/g)].map(([, text]) => text);
      return { caption, figures };
    });
}

/** Figures of a page's tables that no number of the API's answers is printed as, by table. */
function strangers(page: string, answers: readonly unknown[], besides: readonly string[] = []): string[] {
  const printed = printedOf(answers.flatMap(numbersOf));
  const shown = tablesOf(page).filter(({ caption }) => !besides.includes(caption));
  expect(shown.flatMap(({ figures }) => figures).length).toBeGreaterThan(0);
  return shown.flatMap(({ caption, figures }) =>
    figures
      .filter((text) => /^-?[\d.,]+( %)?$/.test(text))
      .filter((text) => !printed.has(text.replace(/^-/, '').replace(/ %$/, '')))
      .map((text) => `${caption}: ${text}`),
  );
}

/** The use of machines, receipts, and prices on average: products and quotients of what the API has. */
function workedOut(plan: PlannedDocument): number[] {
  const machines = plan.months.flatMap((month) =>
    Object.keys(plan.names.machines).map((id) => {
      const own = month.machines.filter(({ machine }) => machine === id);
      const sum = (of: 'hours' | 'available') => own.reduce((total, each) => total + each[of], 0);
      return { hours: sum('hours'), available: sum('available') };
    }),
  );
  return objectsOf({ plan, machines }).flatMap(({ hours, available, mass, price, receipts }) => [
    Number(hours) / Number(available),
    Number(mass) * Number(price),
    Number(receipts) / Number(mass),
  ]);
}

/** Every object of a document, however deep. */
function objectsOf(value: unknown): Readonly<Record<string, unknown>>[] {
  if (typeof value !== 'object' || value === null) return [];
  return [value as Record<string, unknown>, ...Object.values(value).flatMap(objectsOf)];
}

const pageAt = async (path: string) => (await api.app.request(path)).text();
const answerTo = async (question: string, body: object) =>
  (
    await json(
      await api.send('POST', `/${question}`, {
        body: { scenario: 'euro', ...body },
        headers: { Prefer: 'wait=60' },
      }),
    )
  ).answer;

/** Each is money over mass of the API's own figures, held against them one by one in the tests of the pages. */
const BY_MASS = [
  'Ladder: where a short ton of whole tire stops and what it brings there',
  'Beside the ladder',
];

describe("every figure of a page's tables is the API's, to the printed digit:", () => {
  it('the plan, of all months and of each', async () => {
    const plan = await answerTo('plan', { gap: PAGE_GAP });
    const months = ['', ...plan.months.map(({ month }: { month: string }) => `?month=${month}`)];
    for (const query of months) {
      const page = await pageAt(`/scenarios/euro/plan${query}`);
      expect(strangers(page, [plan, workedOut(plan)], BY_MASS)).toEqual([]);
    }
  });

  it('why', async () => {
    const asked = { gap: PAGE_GAP };
    const answers = [await answerTo('plan', asked), await answerTo('explain', { ...asked, shifts: 0 })];
    expect(strangers(await pageAt('/scenarios/euro/why'), answers, BY_MASS)).toEqual([]);
  });

  it('an offer, and what to quote', async () => {
    const asked = { offer: OFFER, counting: 'in parts', gap: PAGE_GAP };
    const verdict = await answerTo('offer', { ...asked, parts: ['displaced'] });
    expect(strangers(await pageAt(`/scenarios/euro/offer?${TERMS}`), [verdict])).toEqual([]);
    const quotes = await answerTo('offer', { ...asked, parts: ['ladder', 'terms', 'calls'] });
    const page = await pageAt(`/scenarios/euro/offer/quotes?${TERMS}`);
    expect(page).toContain('Where the tonnes of a firm volume come from');
    expect(strangers(page, [quotes])).toEqual([]);
  });

  it('a sweep', async () => {
    const parameter = { pointers: ['/feeds/shops/haulage'], kind: 'value' };
    const answer = await answerTo('sweep', { parameter, from: 0, to: 60_000 });
    const page = await pageAt(
      '/scenarios/euro/what-ifs?what=sweep&number=/feeds/shops/haulage&from=0&to=60000',
    );
    expect(strangers(page, [answer])).toEqual([]);
    expect(page).toContain('tonnes over Tire shops: haulage');
    const changes = answer.points.filter(({ change }: { change: string }) => change !== '');
    expect(changes.length).toBeGreaterThan(0);
    const plainText = page.replaceAll('&quot;', '"').replaceAll('&#39;', "'");
    for (const { change } of changes) expect(plainText).toContain(`<td>${change}</td>`);
  });

  it('the best fee', async () => {
    const answer = await answerTo('fee', { feeds: [{ feed: 'shops', low: 100, high: 300 }] });
    const page = await pageAt('/scenarios/euro/what-ifs?what=fee&low-shops=100&high-shops=300');
    expect(strangers(page, [answer])).toEqual([]);
  });

  it('which numbers matter', async () => {
    const page = await pageAt('/scenarios/euro/what-ifs?what=tornado&percent=10');
    const items = rankedItems(scenarioNumbers(WORKS, { mass: 'short ton', currency: 'EUR' }), 0.9, 1.1);
    const answer = await answerTo('tornado', { items });
    expect(answer.bars).toHaveLength(items.length);
    expect(strangers(page, [answer])).toEqual([]);
    const shown = tablesOf(page).flatMap(({ figures }) => figures);
    const money = new Intl.NumberFormat('en-US', { minimumFractionDigits: 2, maximumFractionDigits: 2 });
    for (const { low, high } of answer.bars)
      for (const { value } of [low, high]) expect(shown).toContain(money.format(value));
  });

  it('risk, with what stands in the way of draws without a plan', async () => {
    const answer = await answerTo('risk', { draws: 60, seed: 3 });
    const page = await pageAt('/scenarios/euro/what-ifs?what=risk&draws=60&seed=3');
    expect(strangers(page, [answer])).toEqual([]);
    const { infeasible, limits } = answer.withoutPlan;
    expect(infeasible).toBeGreaterThan(0);
    expect(limits.length).toBeGreaterThan(0);
    expect(page).toContain('Draws without a plan, by what stands in the way');
    for (const { limit } of limits) expect(page).toContain(`>${limit}<`);
  });

  it('two scenarios compared', async () => {
    const answer = await answerTo('comparison', { after: { scenario: OTHER } });
    const page = await pageAt('/scenarios/euro/what-ifs?what=compare&other=other');
    expect(strangers(page, [answer])).toEqual([]);
  });
});

describe('tables to take along', () => {
  it('of an offer hold the figures of the page', async () => {
    const csv = await pageAt(`/scenarios/euro/offer/sources.csv?${TERMS}`);
    const asked = { offer: OFFER, counting: 'in parts', gap: PAGE_GAP, parts: ['ladder', 'terms', 'calls'] };
    const { displacedByVolume } = await answerTo('offer', asked);
    const last = displacedByVolume.delivered.at(-1);
    expect(csv).toContain(`delivered on the offer,${last}`);
    expect((await api.app.request(`/scenarios/euro/offer/nothing.csv?${TERMS}`)).status).toBe(404);
  });
});
