import { copyFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Validator } from '@seriousme/openapi-schema-validator';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { QUESTIONS } from '../../src/host/questions/all.js';
import type { OpenApiDocument, Operation } from '../../src/web/api/openapi.js';
import { type ApiClient, apiClient } from './generated-client.js';
import { json, type TestApi, testApi } from './test-api.js';

let api: TestApi;
let document: OpenApiDocument;

beforeAll(async () => {
  api = await testApi();
  for (const name of ['one-month', 'twelve-months']) {
    copyFileSync(
      fileURLToPath(new URL(`../../scenarios/${name}.json`, import.meta.url)),
      join(api.folder, `${name}.json`),
    );
  }
  document = await json(api.send('GET', '/openapi.json'));
});

afterAll(() => api.close());

const operations = (): Operation[] =>
  Object.values(document.paths).flatMap((methods) => Object.values(methods));

describe('the OpenAPI document', () => {
  test('is one of 3.1, says the schema of the OpenAPI Initiative (as a public validator has it)', async () => {
    const validator = new Validator();
    const { valid, errors } = await validator.validate(structuredClone(document));
    expect(errors).toBeUndefined();
    expect(valid).toBe(true);
    expect(validator.version).toBe('3.1');
  });

  test('refers to nothing that it does not hold, and defines nothing by itself alone', () => {
    const { schemas } = document.components;
    const refs = [...JSON.stringify(document).matchAll(/"\$ref":"([^"]+)"/g)].map(([, ref]) => ref);
    expect(refs.length).toBeGreaterThan(50);
    const names = refs.map((ref) => ref.replace('#/components/schemas/', ''));
    expect(names.filter((name) => !Object.hasOwn(schemas, name))).toEqual([]);
    expect(
      Object.entries(schemas).filter(([name, schema]) => schema.$ref === `#/components/schemas/${name}`),
    ).toEqual([]);
  });

  test('names each operation once, and holds every question', () => {
    const ids = operations().map(({ operationId }) => operationId);
    expect(new Set(ids).size).toBe(ids.length);
    for (const { name } of QUESTIONS) expect(Object.keys(document.paths)).toContain(`/${name}`);
  });

  test('has an example of every question that keeps to its shape and is answered', async () => {
    for (const { name } of QUESTIONS) {
      const { examples } = document.paths[`/${name}`].post.requestBody!.content['application/json'];
      const body = examples!.example.value as object;
      const response = await api.send('POST', `/${name}`, { body, headers: { Prefer: 'wait=60' } });
      expect({ name, status: response.status }).toEqual({ name, status: 200 });
    }
  });
});

describe('the reference page', () => {
  test('shows every operation and shape, and asks for nothing else', async () => {
    const response = await api.send('GET', '/reference');
    const page = await response.text();
    for (const { operationId } of operations()) expect(page).toContain(`id="${operationId}"`);
    for (const name of Object.keys(document.components.schemas)) expect(page).toContain(`id="shape-${name}"`);
    expect(page).not.toMatch(/<script|<link|<img|src=|@import|url\(|https?:\/\//);
    expect(response.headers.get('Content-Security-Policy')).toMatch(/default-src 'none'; style-src 'sha256-/);
  });
});

describe('a client that is generated from the document', () => {
  let client: ApiClient;

  beforeAll(() => {
    client = apiClient(document, (url, init) => api.app.request(url, init) as Promise<Response>);
  });

  test('plans the month, as the owner does', async () => {
    const { scenarios } = await client('listScenarios');
    expect(scenarios.map(({ name }: { name: string }) => name)).toContain('one-month');
    const { answer } = await client('askPlan', { body: { scenario: 'one-month' } });
    expect(answer.status).toBe('optimal');
    const explained = await client('askExplain', { body: { scenario: 'one-month' } });
    expect(explained.answer.sentences.length).toBeGreaterThan(0);
  });

  test('stores an offer, judges it, and deletes it, as sales does', async () => {
    const { offers } = await client('listOffers', { path: { name: 'twelve-months' } });
    const [{ offer }] = offers;
    const counter = { ...offer, id: 'counter-offer' };
    const path = { name: 'twelve-months', offer: 'counter-offer' };
    const { etag } = await client('writeOffer', { path, body: counter, headers: { 'If-None-Match': '*' } });
    const { answer } = await client('askOffer', {
      body: { scenario: 'twelve-months', offer: 'counter-offer', parts: [], counting: 'in parts' },
      headers: { Prefer: 'wait=60' },
    });
    expect(answer.verdict).toBeDefined();
    await client('deleteOffer', { path, headers: { 'If-Match': etag } });
  });

  test('sweeps the fee and takes the risk as a job, as finance does', async () => {
    const { answer } = await client('askSweep', {
      body: {
        scenario: 'one-month',
        parameter: { pointers: ['/feeds/councils/tippingFee'], kind: 'value' },
        from: 1,
        to: 3,
      },
    });
    expect(answer.exact).toBe(true);
    const job = await client('askRisk', { body: { scenario: 'one-month', seed: 3, draws: 4 } });
    let state = job;
    while (state.answer === undefined) state = await client('readJob', { path: { job: job.id } });
    const risk = await client('readJobAnswer', { path: { job: job.id } });
    expect(risk.provenance.seed).toBe(3);
    expect(risk.answer.evaluated).toBe(4);
  });

  test('refuses what the document does not have', async () => {
    await expect(client('askNothing')).rejects.toThrow('askNothing');
    await expect(client('readScenario')).rejects.toThrow('name');
    await expect(client('readScenario', { path: { name: 'nobody' } })).rejects.toThrow('No scenario');
  });
});
