import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { planMonths } from '../../src/analysis/monthly-plan.js';
import { readPlantDocument } from '../../src/plant/read-plant.js';
import { loadSolver } from '../../src/solver/choose.js';
import { SMALL_WORKS } from '../report/small-works.js';
import { json, type TestApi, testApi } from './test-api.js';

let api: TestApi;

beforeAll(async () => {
  api = await testApi();
});

afterAll(() => api.close());

const ask = (question: string, body: unknown, headers: Record<string, string> = {}) =>
  api.send('POST', `/${question}`, { body, headers });

const fewer = { feeds: [{ ...SMALL_WORKS.feeds[0], committed: 5000, available: 5000 }] };

describe('a plan', () => {
  test('is the one that is planned without the API', async () => {
    const { answer } = await json(ask('plan', { scenario: 'works' }));
    const reading = readPlantDocument(SMALL_WORKS);
    const planned = planMonths(reading.ok ? reading.plant : expect.fail(), await loadSolver());
    expect(answer.presentValue).toBe('plan' in planned && planned.plan.statement.presentValue);
  });

  test('of a stored scenario, of the same document and of the same with its keys in another order: the same bytes', async () => {
    const texts = await Promise.all(
      ['works', SMALL_WORKS, Object.fromEntries(Object.entries(SMALL_WORKS).reverse())].map(
        async (scenario) => (await ask('plan', { scenario })).text(),
      ),
    );
    expect(new Set(texts).size).toBe(1);
    const fresh = await testApi();
    const again = await fresh.send('POST', '/plan', { body: { scenario: 'works' } });
    expect(again.headers.get('Cache-Status')).toBe('cutpoint; fwd=miss');
    expect(await again.text()).toBe(texts[0]);
    fresh.close();
  });

  test('is different with a patch, of either kind, and the stored scenario is left as it is', async () => {
    const plain = (await json(ask('plan', { scenario: 'works' }))).answer.presentValue;
    const values = await Promise.all(
      [
        [{ op: 'replace', path: '/outlets/grounds/tiers/0/price', value: 41000 }],
        {
          discountRate: 0.06,
          outlets: SMALL_WORKS.outlets!.map((each) => ({ ...each, freight: 0, packing: 0 })),
        },
      ].map(async (patch) => (await json(ask('plan', { scenario: 'works', patch }))).answer.presentValue),
    );
    for (const value of values) expect(value).toBeGreaterThan(plain);
    expect((await json(ask('plan', { scenario: 'works' }))).answer.presentValue).toBe(plain);
  });

  test('that is asked for again costs nothing, and can be read by its digest', async () => {
    const first = await ask('plan', { scenario: 'works', gap: 0.01 });
    const second = await ask('plan', { scenario: 'works', gap: 0.01 });
    expect(second.headers.get('Cache-Status')).toBe('cutpoint; hit');
    const place = first.headers.get('Content-Location') ?? '';
    const read = await api.send('GET', place);
    expect(await read.text()).toBe(await first.text());
    const etag = read.headers.get('ETag') ?? '';
    expect((await api.send('GET', place, { headers: { 'If-None-Match': `"x", W/${etag}` } })).status).toBe(
      304,
    );
    expect((await api.send('GET', `/answers/${'0'.repeat(64)}`)).status).toBe(404);
  });

  test('carries what it was made from', async () => {
    const { provenance, answer } = await json(ask('plan', { scenario: 'works', patch: { title: 'x' } }));
    expect(provenance.cutpoint).toBe('0.0.0-test');
    expect(provenance.engines).toContainEqual(
      answer.engine.solves === 0 ? {} : expect.objectContaining({ name: 'highs' }),
    );
    const unpatched = (await json(ask('plan', { scenario: 'works' }))).provenance;
    expect(provenance.scenario).toBe(unpatched.scenario);
    expect(provenance.question).not.toBe(unpatched.question);
    expect(answer.scenarioDigest).not.toBe(provenance.scenario);
  });

  test('that no scenario allows is a 422 of its own type with the document that says why', async () => {
    const response = await ask('plan', { scenario: 'works', patch: fewer });
    expect(response.status).toBe(422);
    const body = await json(response);
    expect(body.type).toBe('urn:cutpoint:problem:infeasible');
    expect(body.answer.status).toBe('infeasible');
    const explained = await json(ask('explain', { scenario: 'works', patch: fewer }));
    expect(explained.type).toBe('urn:cutpoint:problem:infeasible');
    expect(explained.answer.conflict.length).toBeGreaterThan(0);
  });

  test('of a scenario with problems is a 422 with all of them', async () => {
    const body = await json(ask('plan', { scenario: { ...SMALL_WORKS, title: 7, machines: [] } }));
    expect(body.type).toBe('urn:cutpoint:problem:invalid-scenario');
    expect(body.problems.map(({ pointer }: { pointer: string }) => pointer)).toEqual(
      expect.arrayContaining(['/title', '/machines']),
    );
  });

  test('for which there is no time is a 422 of its own type, never an unproved plan', async () => {
    const body = await json(ask('plan', { scenario: 'works', engine: 'highs', seconds: 1e-9 }));
    expect(body.type).toBe('urn:cutpoint:problem:no-certified-answer');
  });
});

describe('the other questions', () => {
  const parameter = { pointers: ['/outlets/grounds/tiers/0/price'], kind: 'factor' };

  test('a sweep is exact, and passes through the plan itself', async () => {
    const { answer } = await json(ask('sweep', { scenario: 'works', parameter, from: 0.9, to: 1.2 }));
    expect(answer.exact).toBe(true);
    const value = (await json(ask('plan', { scenario: 'works' }))).answer.presentValue;
    expect(answer.points[0].value).toBeLessThan(value);
    expect(answer.points.at(-1).value).toBeGreaterThan(value);
  });

  test('a fee, a tornado, a comparison and an explanation keep to their documents', async () => {
    const questions: [string, object][] = [
      ['fee', { feeds: [{ feed: 'shops', low: 150, high: 260 }], points: 3 }],
      ['tornado', { items: [{ parameter, low: 0.9, high: 1.1 }] }],
      [
        'comparison',
        { after: { scenario: 'works', patch: [{ op: 'replace', path: '/title', value: 'After' }] } },
      ],
      ['explain', {}],
    ];
    for (const [question, options] of questions) {
      const response = await ask(question, { scenario: 'works', ...options });
      expect({ question, status: response.status }).toEqual({ question, status: 200 });
    }
  });

  test('two scenarios that are the same do not differ', async () => {
    const { answer } = await json(ask('comparison', { scenario: 'works', after: { scenario: SMALL_WORKS } }));
    expect(answer.to).toBe(answer.from);
    const missing = await ask('comparison', { scenario: 'works', after: { scenario: 'nothing' } });
    expect(missing.status).toBe(404);
  });

  test('an offer is judged, whether it stands in the scenario or comes with the question', async () => {
    const offer = { ...SMALL_WORKS.contracts![0], id: 'more-mats', price: 60000 };
    const inside = { ...SMALL_WORKS, offers: [offer] };
    const asked = { parts: [], margin: 0 };
    const one = await json(ask('offer', { scenario: inside, offer: 'more-mats', ...asked }));
    const other = await json(ask('offer', { scenario: 'works', offer, ...asked }));
    expect(one.answer.verdict).toBeDefined();
    expect(other.answer.verdict).toBe(one.answer.verdict);
    const unknown = await json(ask('offer', { scenario: 'works', offer: 'nobody' }));
    expect(unknown.type).toBe('urn:cutpoint:problem:invalid-scenario');
  });

  test('risk is answered with a job, unless the client would wait; its seed stands in the provenance', async () => {
    const uncertainty = [{ target: '/outlets/scrap/price', distribution: { kind: 'lognormal', sigma: 0.1 } }];
    const body = { scenario: { ...SMALL_WORKS, uncertainty }, seed: 11, draws: 5 };
    const { provenance, answer } = await json(ask('risk', body, { Prefer: 'wait=30' }));
    expect(provenance.seed).toBe(11);
    expect(answer.evaluated).toBe(5);
    expect((await ask('risk', { ...body, seed: 12 })).status).toBe(202);
    expect((await ask('risk', { scenario: 'works', seed: 1 }, { Prefer: 'wait=30' })).status).toBe(422);
  });

  test('check answers with what is wrong, whatever it is', async () => {
    const right = await json(ask('check', { scenario: 'works' }));
    expect(right.problems).toEqual([]);
    const wrong = await json(ask('check', { scenario: 'works', patch: { title: 7 } }));
    expect(wrong.problems).toEqual([expect.objectContaining({ pointer: '/title' })]);
    const astray = await json(
      ask('check', { scenario: 'works', patch: [{ op: 'remove', path: '/nowhere/0' }] }),
    );
    expect(astray.problems).toHaveLength(1);
  });
});

describe('a request that is not what it should be', () => {
  const raw = (body: string, headers: Record<string, string> = {}) =>
    api.send('POST', '/plan', { body, headers });

  test.each([
    ['no JSON', '{"scenario":', 400],
    ['nothing', '', 400],
    ['a key that stands twice', '{"scenario":"works","scenario":"works"}', 400],
    ['a key that stands twice deep inside', '{"scenario":{"format":"a","units":{"mass":1,"mass":2}}}', 400],
    ['too deep', `{"scenario":${'['.repeat(500)}${']'.repeat(500)}}`, 400],
    ['deeper than a stack', '['.repeat(200_000), 400],
    ['a list', '[]', 422],
    ['no scenario', '{}', 422],
    ['an unknown member', '{"scenario":"works","colour":"red"}', 422],
    ['a key that must not be read', '{"scenario":"works","__proto__":{"gap":0.5}}', 422],
    ['such a key in the scenario', '{"scenario":{"__proto__":{"title":"x"}}}', 422],
    [
      'such a key in a patch',
      '{"scenario":"works","patch":{"__proto__":{"title":"x"},"constructor":{"prototype":{"a":1}}}}',
      422,
    ],
    ['a number beyond all numbers', '{"scenario":{"discountRate":1e999}}', 400],
    ['a number too large to reckon with', '{"scenario":{"discountRate":1e308}}', 422],
    ['such a number in a patch', '{"scenario":"works","patch":{"contracts":[{"price":-1e300}]}}', 422],
    ['a number beyond all numbers among the options', '{"scenario":"works","seconds":1e999}', 422],
    ['half a character', '{"scenario":{"title":"\\ud800"}}', 400],
    ['more seconds than there are', '{"scenario":"works","seconds":100000}', 422],
    [
      'a patch that copies without end',
      `{"scenario":"works","patch":[${new Array(30).fill('{"op":"copy","from":"","path":"/note"}').join(',')}]}`,
      422,
    ],
    ['an endless list', JSON.stringify({ scenario: { feeds: new Array(1001).fill(1) } }), 422],
    ['a name that is none', '{"scenario":"../works"}', 422],
    ['a scenario that is not there', '{"scenario":"nobody"}', 404],
  ])('%s is refused', async (_, body, status) => {
    expect((await raw(body)).status).toBe(status);
    expect(({} as { title?: string }).title).toBeUndefined();
    expect((await api.send('GET', '/health')).status).toBe(200);
  });

  test('problems of the request lead into the request', async () => {
    const { type, problems } = await json(raw('{"scenario":"works","gap":2,"colour":"red"}'));
    expect(type).toBe('urn:cutpoint:problem:invalid-request');
    expect(problems.map(({ pointer }: { pointer: string }) => pointer).sort()).toEqual(['/colour', '/gap']);
  });

  test('another form than plain JSON in UTF-8 is refused', async () => {
    for (const type of [
      'text/plain',
      'application/x-www-form-urlencoded',
      'application/json; charset=latin1',
      '',
    ]) {
      expect((await raw('{"scenario":"works"}', { 'Content-Type': type })).status).toBe(415);
    }
    expect((await raw('{"scenario":"works"}', { 'Content-Encoding': 'gzip' })).status).toBe(415);
    expect(
      (await raw('{"scenario":"works"}', { 'Content-Type': 'Application/JSON; Charset="UTF-8"' })).status,
    ).toBe(200);
    const latin = await api.app.request('/plan', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: new Uint8Array([0x7b, 0x22, 0xe9, 0x22, 0x7d]),
    });
    expect(latin.status).toBe(400);
  });

  test('a body above the limit is refused, with its length said and without', async () => {
    const small = await testApi({ limits: { bodyBytes: 20_000 } });
    const body = JSON.stringify({ scenario: { title: 'x'.repeat(20_000) } });
    expect((await small.send('POST', '/plan', { body })).status).toBe(413);
    const stream = new ReadableStream({
      start(controller) {
        controller.enqueue(new TextEncoder().encode(body));
        controller.close();
      },
    });
    const request = new Request('http://localhost/plan', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: stream,
      duplex: 'half',
    } as RequestInit);
    expect((await small.app.request(request)).status).toBe(413);
    small.close();
  });

  test('another method is refused with those that are allowed', async () => {
    const response = await api.send('GET', '/plan');
    expect(response.status).toBe(405);
    expect(response.headers.get('Allow')).toBe('POST');
    expect((await api.send('PATCH', '/scenarios/works')).headers.get('Allow')).toBe('GET, PUT, DELETE, HEAD');
  });
});
