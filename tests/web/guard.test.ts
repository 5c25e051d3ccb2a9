import { afterEach, describe, expect, test } from 'vitest';
import type { QuestionRunner } from '../../src/host/question-runner.js';
import { inProcessRunner } from './in-process-runner.js';
import { json, type TestApi, type TestApiOptions, testApi, WORKS_TEXT } from './test-api.js';

const opened: TestApi[] = [];

afterEach(() => {
  for (const api of opened.splice(0)) api.close();
});

async function open(options: TestApiOptions = {}): Promise<TestApi> {
  const api = await testApi(options);
  opened.push(api);
  return api;
}

const FULL = 'full-0123456789abcdef';
const READ = 'read-0123456789abcdef';
const bearer = (token: string) => ({ Authorization: `Bearer ${token}` });

describe('tokens', () => {
  const access = { kind: 'tokens', full: FULL, read: READ } as const;

  test('none, or a wrong one, permits nothing but to see that the server is there', async () => {
    const { send } = await open({ access });
    for (const headers of [
      {},
      bearer('wrong-0123456789abcdef'),
      bearer(''),
      { Authorization: `Basic ${FULL}` },
      bearer(`${FULL}x`),
    ]) {
      const response = await send('GET', '/scenarios', { headers });
      expect(response.status).toBe(401);
      expect(response.headers.get('WWW-Authenticate')).toContain('Bearer');
      expect((await send('POST', '/plan', { body: { scenario: 'works' }, headers })).status).toBe(401);
    }
    for (const path of ['/health', '/openapi.json', '/reference', '/schema/scenario']) {
      expect((await send('GET', path)).status).toBe(200);
    }
  });

  test('the one for reading reads and asks but does not write; the full one does all', async () => {
    const { send } = await open({ access });
    const put = (token: string) =>
      send('PUT', '/scenarios/other', {
        body: WORKS_TEXT,
        headers: { 'If-None-Match': '*', ...bearer(token) },
      });
    expect((await send('GET', '/scenarios', { headers: bearer(READ) })).status).toBe(200);
    expect(
      (await send('POST', '/check', { body: { scenario: 'works' }, headers: bearer(READ) })).status,
    ).toBe(200);
    expect((await put(READ)).status).toBe(403);
    expect((await put(FULL)).status).toBe(201);
  });

  test('where only one is set the other, and an empty one, permit nothing', async () => {
    const { send } = await open({ access: { kind: 'tokens', full: FULL } });
    expect((await send('GET', '/scenarios', { headers: bearer('') })).status).toBe(401);
    expect((await send('GET', '/scenarios', { headers: bearer('undefined') })).status).toBe(401);
    expect((await send('GET', '/scenarios', { headers: bearer(FULL) })).status).toBe(200);
  });

  test('do not appear in the log, nor do bodies or queries', async () => {
    const { send, log } = await open({ access });
    await send('GET', '/scenarios?token=secret-query', { headers: bearer(FULL) });
    await send('POST', '/check', { body: { scenario: { title: 'secret-title' } }, headers: bearer(READ) });
    const text = JSON.stringify(log);
    expect(log).toHaveLength(2);
    for (const secret of [FULL, READ, 'secret-query', 'secret-title']) expect(text).not.toContain(secret);
  });
});

describe('whoever comes through a browser', () => {
  test('is refused where the page made this machine answer for another name', async () => {
    const { send } = await open({ hosts: ['127.0.0.1', '[::1]', 'localhost'] });
    const statusFor = async (Host: string) => (await send('GET', '/scenarios', { headers: { Host } })).status;
    expect(await statusFor('evil.example')).toBe(421);
    expect(await statusFor('evil.example:8080')).toBe(421);
    expect(await statusFor('localhost.evil.example')).toBe(421);
    expect(await statusFor('LOCALHOST:8080')).toBe(200);
    expect(await statusFor('[::1]:8080')).toBe(200);
  });

  test('may neither write nor ask from another origin, unless it is listed', async () => {
    const origins = ['https://sheets.example'];
    const { send } = await open({ origins });
    const check = (Origin: string) =>
      send('POST', '/check', { body: { scenario: 'works' }, headers: { Origin } });
    expect((await check('https://evil.example')).status).toBe(403);
    expect((await check('null')).status).toBe(403);
    const listed = await check('https://sheets.example');
    expect(listed.status).toBe(200);
    expect(listed.headers.get('Access-Control-Allow-Origin')).toBe('https://sheets.example');
    expect((await check('http://localhost')).status).toBe(200);
    const read = await send('GET', '/scenarios', { headers: { Origin: 'https://evil.example' } });
    expect(read.headers.get('Access-Control-Allow-Origin')).toBeNull();
  });

  test('gets no leave for other origins where none is listed', async () => {
    const { app } = await open();
    const response = await app.request('/plan', {
      method: 'OPTIONS',
      headers: { Origin: 'https://evil.example', 'Access-Control-Request-Method': 'POST' },
    });
    expect(response.headers.get('Access-Control-Allow-Origin')).toBeNull();
    expect(response.ok).toBe(false);
  });

  test('is told to keep the answer to what it is', async () => {
    const { send } = await open();
    for (const path of ['/scenarios', '/reference', '/nowhere']) {
      const { headers } = await send('GET', path);
      expect(headers.get('X-Content-Type-Options')).toBe('nosniff');
      expect(headers.get('X-Frame-Options')).toBe('DENY');
      expect(headers.get('Content-Security-Policy')).toContain("default-src 'none'");
      expect(headers.get('X-Request-Id')).toMatch(/^[\w-]{36}$/);
    }
  });
});

describe('a fault', () => {
  test('is a 500 that says nothing of the inside; the log has it under the request id', async () => {
    const faulty: QuestionRunner = {
      ...inProcessRunner,
      check: async () => {
        throw new TypeError('cannot read /secret/path of wasm');
      },
      answer: async () => {
        throw new TypeError('cannot read /secret/path of wasm');
      },
    };
    const { send, log } = await open({ runner: faulty });
    const response = await send('GET', '/scenarios', { headers: { 'X-Request-Id': 'mine-1' } });
    expect(response.status).toBe(500);
    expect(response.headers.get('X-Request-Id')).toBe('mine-1');
    expect(await response.text()).not.toMatch(/secret|wasm|TypeError|\.js|\bat \w+ \(/);
    expect(log).toContainEqual(
      expect.objectContaining({
        event: 'fault',
        requestId: 'mine-1',
        fault: expect.stringContaining('/secret/path'),
      }),
    );
    const asked = await send('POST', '/plan', { body: { scenario: JSON.parse(WORKS_TEXT) } });
    expect(asked.status).toBe(500);
    expect(await asked.text()).not.toMatch(/secret|wasm|TypeError/);
    const faults = log.filter(({ event }) => event === 'fault');
    expect(faults.map(({ requestId }) => requestId)).toEqual(['mine-1', asked.headers.get('X-Request-Id')]);
  });

  test('a request id with a line break in it is not taken over', async () => {
    const { send, log } = await open();
    await send('GET', '/health', { headers: { 'X-Request-Id': 'x{"level":"error"}' } });
    expect(log[0].requestId).toMatch(/^[\w-]{36}$/);
  });
});

test('a server that is closing takes no more questions and says so', async () => {
  const { send, state } = await open();
  state.isOpen = false;
  const response = await send('POST', '/plan', { body: { scenario: 'works' } });
  expect(response.status).toBe(503);
  expect(response.headers.get('Retry-After')).not.toBeNull();
  expect((await json(send('GET', '/health'))).status).toBe('closing');
});
