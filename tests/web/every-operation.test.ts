import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { OpenApiDocument } from '../../src/web/api/openapi.js';
import { SERVER_LIMITS } from '../../src/web/limits.js';
import { type RunningServer, startServer } from '../../src/web/server.js';
import { builtProgram } from '../built-program.js';
import { SMALL_WORKS } from '../report/small-works.js';
import { Documented } from './documented.js';
import { json, type SendOptions, testApi, WORKS_TEXT } from './test-api.js';

type Send = (method: string, path: string, options?: SendOptions) => Promise<Response>;

const FACTOR = { pointers: ['/outlets/scrap/price'], kind: 'factor' };
const UNCERTAIN = { target: '/outlets/scrap/price', distribution: { kind: 'lognormal', sigma: 0.1 } };
const ANY = { 'If-Match': '*' };
const NEW = { 'If-None-Match': '*' };
const PATIENT = { Prefer: 'wait=60' };

let folder: string;
let server: RunningServer;

beforeAll(async () => {
  const { planWorker } = await builtProgram();
  folder = mkdtempSync(join(tmpdir(), 'cutpoint-operations-'));
  writeFileSync(join(folder, 'works.json'), WORKS_TEXT);
  server = await startServer({
    host: '127.0.0.1',
    port: 0,
    scenarios: folder,
    access: { kind: 'open' },
    origins: [],
    version: '0.0.0-test',
    limits: SERVER_LIMITS,
    log: () => {},
    questionWorker: new URL('question-worker.js', planWorker),
  });
}, 180_000);

afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true });
});

/** Asks for everything that a server with the scenario `works` offers. */
async function askAll(send: Send): Promise<void> {
  const expectStatus = async (status: number, asked: Promise<Response>) => {
    const response = await asked;
    expect(response.status, await response.clone().text()).toBe(status);
    return response;
  };
  const read = (path: string) => expectStatus(200, send('GET', path));
  const ask = (question: string, options: object = {}) => {
    const body = { scenario: 'works', ...options };
    return expectStatus(200, send('POST', `/${question}`, { body, headers: PATIENT }));
  };
  for (const path of ['/health', '/openapi.json', '/reference', '/schema', '/schema/plan', '/scenarios']) {
    await read(path);
  }
  await expectStatus(201, send('PUT', '/scenarios/copy', { body: SMALL_WORKS, headers: NEW }));
  const other = { ...SMALL_WORKS, title: 'Other' };
  await expectStatus(200, send('PUT', '/scenarios/copy', { body: other, headers: ANY }));
  expect(await json(read('/scenarios/copy'))).toEqual(other);
  expect((await json(read('/scenarios/copy/versions'))).versions).toHaveLength(1);
  expect(await json(read('/scenarios/copy/versions/1'))).toEqual(SMALL_WORKS);

  const offer = { ...SMALL_WORKS.contracts![0], id: 'second' };
  const place = '/scenarios/copy/offers/second';
  await expectStatus(201, send('PUT', place, { body: offer, headers: NEW }));
  expect(await json(read(place))).toEqual(offer);
  expect((await json(read('/scenarios/copy/offers'))).offers.length).toBe(
    (SMALL_WORKS.offers ?? []).length + 1,
  );
  await ask('offer', { scenario: 'copy', offer: 'second', parts: [], counting: 'in parts' });
  await expectStatus(204, send('DELETE', place, { headers: ANY }));
  await expectStatus(204, send('DELETE', '/scenarios/copy', { headers: ANY }));

  const plan = await ask('plan');
  expect(await (await read(plan.headers.get('Content-Location') ?? '')).text()).toBe(await plan.text());
  await ask('explain');
  await ask('sweep', { parameter: FACTOR, from: 0.9, to: 1.1 });
  await ask('tornado', { items: [{ parameter: FACTOR, low: 0.9, high: 1.1 }] });
  await ask('fee', { feeds: [{ feed: 'shops', low: 150, high: 260 }], points: 3 });
  await ask('comparison', { after: { scenario: 'works', patch: { title: 'After' } } });
  await ask('check', { patch: { title: 7 } });

  const body = { scenario: 'works', patch: { uncertainty: [UNCERTAIN] }, seed: 5, draws: 20 };
  const accepted = await expectStatus(202, send('POST', '/risk', { body }));
  const job = accepted.headers.get('Location') ?? '';
  expect(await (await read(`${job}/events`)).text()).toContain('"state":"done"');
  expect((await json(read(job))).state).toBe('done');
  expect((await json(read('/jobs'))).jobs).toHaveLength(1);
  expect((await json(read(`${job}/answer`))).answer.evaluated).toBe(20);
  await expectStatus(204, send('DELETE', job));
}

/** The same send, which notes the operations that were asked for. */
function noting(documented: Documented, asked: Set<string>, send: Send): Send {
  return (method, path, options) => {
    asked.add(documented.operationOf(method, path)?.operationId ?? path);
    return send(method, path, options);
  };
}

function operationsOf({ paths }: OpenApiDocument): string[] {
  return Object.values(paths).flatMap((methods) => Object.values(methods).map((each) => each.operationId));
}

test('every operation answers as documented through the request function', async () => {
  const api = await testApi();
  const documented = new Documented(await json(api.send('GET', '/openapi.json')));
  const asked = new Set<string>();
  await askAll(noting(documented, asked, api.send));
  expect([...asked].sort()).toEqual(operationsOf(documented.document).sort());
  api.close();
});

test('every operation answers as documented over a socket', async () => {
  const documented = new Documented(await json(fetch(`${server.url}/openapi.json`)));
  const asked = new Set<string>();
  await askAll(
    noting(documented, asked, async (method, path, { body, headers = {} } = {}) => {
      const response = await fetch(`${server.url}${path}`, {
        method,
        headers: { ...(body === undefined ? {} : { 'Content-Type': 'application/json' }), ...headers },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      });
      await documented.expectDocumented(method, path, response);
      return response;
    }),
  );
  expect([...asked].sort()).toEqual(operationsOf(documented.document).sort());
});
