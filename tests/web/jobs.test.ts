import { afterEach, describe, expect, test } from 'vitest';
import type { OrderHooks, OrderReply } from '../../src/host/order.js';
import type { QuestionRunner } from '../../src/host/question-runner.js';
import { ThreadFailure } from '../../src/host/thread-pool.js';
import { inProcessRunner } from './in-process-runner.js';
import { json, type TestApi, type TestApiOptions, testApi } from './test-api.js';

const opened: TestApi[] = [];

afterEach(() => {
  for (const api of opened.splice(0)) api.close();
});

async function open(options: TestApiOptions): Promise<TestApi> {
  const api = await testApi(options);
  opened.push(api);
  return api;
}

/** A runner whose answers come when the test says so. */
function heldRunner() {
  const held: { hooks: OrderHooks; reply: (reply: OrderReply) => void; fail: (error: unknown) => void }[] =
    [];
  const runner: QuestionRunner = {
    ...inProcessRunner,
    answer: (_, hooks = {}) =>
      new Promise((reply, fail) => {
        held.push({ hooks, reply, fail });
      }),
  };
  return { runner, held };
}

const ANSWER: OrderReply = { kind: 'answered', text: '{"format":"cutpoint-plan/1"}', engines: [] };

async function asyncJob(api: TestApi, options: object = {}) {
  const body = { scenario: 'works', ...options };
  const response = await api.send('POST', '/plan', { body, headers: { Prefer: 'respond-async' } });
  return { response, job: await json(response) };
}

const ended = async (api: TestApi, id: string) => {
  await api.services.jobs.ended(id, 10_000);
  return json(api.send('GET', `/jobs/${id}`));
};

describe('a job', () => {
  test('is accepted with its place, goes from queued to running to done, and keeps its answer', async () => {
    const { runner, held } = heldRunner();
    const api = await open({ runner });
    const { response, job } = await asyncJob(api);
    expect(response.status).toBe(202);
    expect(response.headers.get('Location')).toBe(`/jobs/${job.id}`);
    expect(response.headers.get('Preference-Applied')).toBe('respond-async');
    expect(job.state).toBe('queued');
    expect((await api.send('GET', `/jobs/${job.id}/answer`)).status).toBe(409);
    held[0].hooks.onStart?.();
    held[0].hooks.onProgress?.({
      kind: 'whole numbers',
      seconds: 1,
      bound: Number.POSITIVE_INFINITY,
      best: 5,
    });
    const running = await json(api.send('GET', `/jobs/${job.id}`));
    expect(running).toMatchObject({
      state: 'running',
      progress: { kind: 'whole numbers', seconds: 1, best: 5 },
    });
    expect(running.progress).not.toHaveProperty('bound');
    held[0].reply(ANSWER);
    expect(await ended(api, job.id)).toMatchObject({ state: 'done', answer: `/jobs/${job.id}/answer` });
    const answer = await api.send('GET', `/jobs/${job.id}/answer`);
    expect((await json(answer)).answer).toEqual({ format: 'cutpoint-plan/1' });
    expect((await api.send('DELETE', `/jobs/${job.id}`)).status).toBe(204);
    expect((await api.send('GET', `/jobs/${job.id}`)).status).toBe(404);
  });

  test('tells how it goes on as server-sent events, to its end', async () => {
    const { runner, held } = heldRunner();
    const api = await open({ runner });
    const { job } = await asyncJob(api);
    const stream = await api.send('GET', `/jobs/${job.id}/events`);
    held[0].hooks.onStart?.();
    held[0].hooks.onProgress?.({ kind: 'counted', done: 1, of: 2 });
    held[0].reply(ANSWER);
    const events = (await stream.text())
      .trim()
      .split('\n\n')
      .map((event) => {
        const [name, data, id] = event.split('\n');
        expect(name).toBe('event: job');
        expect(id).toMatch(/^id: \d+$/);
        return JSON.parse(data.replace('data: ', ''));
      });
    expect(events.map(({ state }) => state)).toEqual(['queued', 'running', 'running', 'done']);
    expect(events[2].progress).toEqual({ kind: 'counted', done: 1, of: 2 });
    const late = await (await api.send('GET', `/jobs/${job.id}/events`)).text();
    expect(late.match(/event: job/g)).toHaveLength(1);
  });

  test('that is cancelled is asked to end; the best so far stays its answer, and is not kept for others', async () => {
    const { runner, held } = heldRunner();
    const api = await open({ runner });
    const { job } = await asyncJob(api);
    held[0].hooks.onStart?.();
    expect((await api.send('DELETE', `/jobs/${job.id}`)).status).toBe(202);
    expect(held[0].hooks.signal?.aborted).toBe(true);
    held[0].reply({ ...ANSWER, kind: 'stopped' } as OrderReply);
    expect(await ended(api, job.id)).toMatchObject({ state: 'cancelled', answer: expect.any(String) });
    const answer = await api.send('GET', `/jobs/${job.id}/answer`);
    expect(answer.headers.get('Cache-Control')).toBe('no-store');
    void asyncJob(api);
    await expect.poll(() => held.length).toBe(2);
  });

  test('that is cancelled before it began has no answer', async () => {
    const { runner, held } = heldRunner();
    const api = await open({ runner });
    const { job } = await asyncJob(api);
    await api.send('DELETE', `/jobs/${job.id}`);
    held[0].fail(new ThreadFailure('cancelled'));
    expect(await ended(api, job.id)).toMatchObject({ state: 'cancelled' });
    expect((await api.send('GET', `/jobs/${job.id}/answer`)).status).toBe(404);
  });

  test.each([
    ['ended', 'urn:cutpoint:problem:internal', 500],
    ['overdue', 'urn:cutpoint:problem:no-certified-answer', 422],
    ['full', 'urn:cutpoint:problem:busy', 503],
  ] as const)('whose thread is %s says so', async (reason, type, status) => {
    const { runner, held } = heldRunner();
    const api = await open({ runner });
    const { job } = await asyncJob(api);
    held[0].fail(new ThreadFailure(reason));
    expect(await ended(api, job.id)).toMatchObject({ state: 'failed' });
    const answer = await api.send('GET', `/jobs/${job.id}/answer`);
    expect(answer.status).toBe(status);
    expect((await json(answer)).type).toBe(type);
  });

  test("is nobody else's: not found, not listed, not cancelled", async () => {
    const { runner, held } = heldRunner();
    let address = '10.0.0.1';
    const api = await open({ runner, address: () => address });
    const { job } = await asyncJob(api);
    address = '10.0.0.2';
    for (const [method, path] of [
      ['GET', ''],
      ['GET', '/events'],
      ['GET', '/answer'],
      ['DELETE', ''],
    ]) {
      expect((await api.send(method, `/jobs/${job.id}${path}`)).status).toBe(404);
    }
    expect((await json(api.send('GET', '/jobs'))).jobs).toEqual([]);
    address = '10.0.0.1';
    expect((await json(api.send('GET', '/jobs'))).jobs).toHaveLength(1);
    expect(held[0].hooks.signal?.aborted).toBe(false);
  });

  test('is kept for the stated time and no longer, and not more of them than stated', async () => {
    let now = 0;
    const api = await open({ now: () => now, jobs: { keptFor: 1000, kept: 2 } });
    const ids: string[] = [];
    for (const gap of [0.1, 0.2, 0.3]) {
      const { job } = await asyncJob(api, { gap });
      ids.push(job.id);
      await ended(api, job.id);
    }
    expect((await api.send('GET', `/jobs/${ids[0]}`)).status).toBe(404);
    expect((await api.send('GET', `/jobs/${ids[2]}`)).status).toBe(200);
    now = 1001;
    expect((await api.send('GET', `/jobs/${ids[2]}`)).status).toBe(404);
  });
});

describe('a short question', () => {
  test('that takes longer than the server waits becomes a job', async () => {
    const { runner, held } = heldRunner();
    const api = await open({ runner, limits: { waitSeconds: 0.05 } });
    const response = await api.send('POST', '/plan', { body: { scenario: 'works' } });
    expect(response.status).toBe(202);
    held[0].reply(ANSWER);
    expect(await ended(api, (await json(response)).id)).toMatchObject({ state: 'done' });
  });

  test('whose client goes away is stopped', async () => {
    const { runner, held } = heldRunner();
    const api = await open({ runner });
    const leaving = new AbortController();
    const request = new Request('http://localhost/plan', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: '{"scenario":"works"}',
      signal: leaving.signal,
    });
    const asked = api.app.request(request);
    await expect.poll(() => held.length).toBe(1);
    leaving.abort();
    await expect.poll(() => held[0].hooks.signal?.aborted).toBe(true);
    held[0].fail(new ThreadFailure('cancelled'));
    await asked;
    expect(api.services.jobs.active()).toEqual([]);
  });
});

describe('more than the server can do', () => {
  test('of one client is a 429, of all together a 503, each with when to come again', async () => {
    const { runner, held } = heldRunner();
    let address = '10.0.0.1';
    const api = await open({ runner, address: () => address, jobs: { activeByClient: 2, active: 3 } });
    const start = async (gap: number) => (await asyncJob(api, { gap })).response;
    expect((await start(0.1)).status).toBe(202);
    expect((await start(0.2)).status).toBe(202);
    const mine = await start(0.3);
    expect(mine.status).toBe(429);
    expect(mine.headers.get('Retry-After')).not.toBeNull();
    address = '10.0.0.2';
    expect((await start(0.4)).status).toBe(202);
    address = '10.0.0.3';
    const full = await start(0.5);
    expect(full.status).toBe(503);
    expect(full.headers.get('Retry-After')).not.toBeNull();
    for (const { reply } of held) reply(ANSWER);
    await expect.poll(() => api.services.jobs.active().length).toBe(0);
    expect((await start(0.6)).status).toBe(202);
  });
});
