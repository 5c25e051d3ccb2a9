import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { getPriority, tmpdir } from 'node:os';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Order } from '../../src/host/order.js';
import type { Progress } from '../../src/host/questions/question.js';
import { ThreadFailure } from '../../src/host/thread-pool.js';
import { workerRunner } from '../../src/host/worker-runner.js';
import { SERVER_LIMITS } from '../../src/web/limits.js';
import type { LogEntry } from '../../src/web/log.js';
import { type RunningServer, startServer } from '../../src/web/server.js';
import { type BuiltProgram, builtProgram } from '../built-program.js';
import { SMALL_WORKS } from '../report/small-works.js';
import { inProcessRunner } from './in-process-runner.js';
import { json, WORKS_TEXT } from './test-api.js';

let program: BuiltProgram;
let folder: string;
let worker: URL;

beforeAll(async () => {
  program = await builtProgram();
  worker = new URL('question-worker.js', program.planWorker);
  folder = mkdtempSync(join(tmpdir(), 'cutpoint-server-'));
  writeFileSync(join(folder, 'works.json'), WORKS_TEXT);
}, 180_000);

afterAll(() => rmSync(folder, { recursive: true }));

const ORDER: Order = { question: 'plan', scenario: SMALL_WORKS, options: {}, engine: 'auto', seconds: 60 };
const POST = { method: 'POST', headers: { 'Content-Type': 'application/json' } };

const UNCERTAIN = {
  ...SMALL_WORKS,
  uncertainty: [{ target: '/outlets/scrap/price', distribution: { kind: 'lognormal', sigma: 0.1 } }],
};

const LONG: Order = { ...ORDER, question: 'risk', options: { seed: 1, draws: 20_000 }, scenario: UNCERTAIN };

const reasonOf = (answer: Promise<unknown>): Promise<string> =>
  answer.then(
    () => 'answered',
    (error) => (error instanceof ThreadFailure ? error.reason : String(error)),
  );

describe('worker threads', () => {
  test('give the same bytes as the work in this thread; one that runs over its time is ended and replaced', async () => {
    const runner = workerRunner({ program: worker, threads: 1, waiting: 1, megabytes: 500, grace: 0 });
    try {
      expect(await runner.answer(ORDER)).toEqual(await inProcessRunner.answer(ORDER));
      expect(await runner.read('{"a":1,"a":2}')).toEqual(await inProcessRunner.read('{"a":1,"a":2}'));
      const check = { document: SMALL_WORKS, patch: { title: 7 } };
      expect(await runner.check(check)).toEqual(await inProcessRunner.check(check));
      expect(await reasonOf(runner.answer({ ...LONG, seconds: 1e-4 }))).toBe('overdue');
      expect(await reasonOf(runner.answer(ORDER))).toBe('answered');
    } finally {
      await runner.close();
    }
  });

  test('share the draws of a risk between them: the same answer whatever their number', async () => {
    const order = { ...LONG, options: { seed: 5, draws: 1100, level: 0 } };
    const alone = await inProcessRunner.answer(order);
    expect(alone.kind).toBe('answered');
    for (const threads of [1, 2, 3]) {
      const runner = workerRunner({ program: worker, threads, waiting: 1, megabytes: 500, grace: 60 });
      const done: number[] = [];
      const hooks = {
        onProgress: (progress: Progress) => void (progress.kind === 'counted' && done.push(progress.done)),
      };
      try {
        expect(await runner.answer(order, hooks)).toEqual(alone);
        expect(done).toEqual([...done].sort((a, b) => a - b));
        expect(done.at(-1)).toBe(1100);
      } finally {
        await runner.close();
      }
    }
  });

  test('that share a question give what they have together, and take no more than may wait', async () => {
    const runner = workerRunner({ program: worker, threads: 2, waiting: 0, megabytes: 500, grace: 30 });
    const stop = new AbortController();
    const refused: Promise<string>[] = [];
    let started = 0;
    try {
      const answer = runner.answer(LONG, {
        signal: stop.signal,
        onStart: () => {
          started += 1;
        },
        onProgress: (progress) => {
          if (progress.kind !== 'counted' || progress.done < 700 || stop.signal.aborted) return;
          const others = [runner.answer(ORDER), runner.answer(ORDER)];
          refused.push(reasonOf(others[1]));
          others[0].catch(() => {});
          stop.abort();
        },
      });
      const reply = await answer;
      expect(started).toBe(1);
      expect(reply.kind).toBe('stopped');
      const { status, evaluated } = JSON.parse('text' in reply ? reply.text : '{}');
      expect(status).toBe('partial');
      expect(evaluated).toBeGreaterThan(300);
      expect(await Promise.all(refused)).toEqual(['full']);
      expect(await reasonOf(runner.answer({ ...LONG, scenario: {} }))).toBe('answered');
    } finally {
      await runner.close();
    }
  });

  test.runIf(process.platform === 'linux')('let the thread that asks go first', async () => {
    const others = () => new Set(readdirSync('/proc/self/task'));
    const before = others();
    const runner = workerRunner({ program: worker, threads: 1, waiting: 1, megabytes: 500, grace: 0 });
    try {
      await Promise.all([runner.answer(ORDER), runner.read('{}')]);
      const own = getPriority(process.pid);
      const added = [...others()]
        .filter((thread) => !before.has(thread))
        .map((thread) => getPriority(Number(thread)));
      expect(added.filter((priority) => priority > own)).toHaveLength(2);
    } finally {
      await runner.close();
    }
  });

  test('that die, or use more memory than they may, are replaced, and say that they ended', async () => {
    const dying = join(folder, 'dying-worker.mjs');
    writeFileSync(
      dying,
      `export function answer({ work: order, port }) {
        port.postMessage({ kind: 'begun' });
        if (order.engine === 'highs') process.exit(7);
        const kept = [];
        while (order.engine === 'auto') kept.push(new Array(100_000).fill({}).map(() => ({})));
        port.close();
        return { kind: 'answered', text: '{}', engines: [] };
      }`,
    );
    const program = pathToFileURL(dying);
    const runner = workerRunner({ program, threads: 1, waiting: 1, megabytes: 30, grace: 60 });
    try {
      expect(await reasonOf(runner.answer({ ...ORDER, engine: 'highs' }))).toBe('ended');
      expect(await reasonOf(runner.answer({ ...ORDER, engine: 'auto' }))).toBe('ended');
      expect(await reasonOf(runner.answer({ ...ORDER, engine: 'javascript-lp-solver' }))).toBe('answered');
    } finally {
      await runner.close();
    }
  });

  test('that are asked to end give what they have; what waits is dropped, and what is too much refused', async () => {
    const runner = workerRunner({ program: worker, threads: 1, waiting: 1, megabytes: 500, grace: 30 });
    const stop = new AbortController();
    const waiting = new AbortController();
    const counts: number[] = [];
    try {
      let queued: Promise<string> | undefined;
      const reply = await new Promise<Awaited<ReturnType<typeof runner.answer>>>((resolve, reject) => {
        const onProgress = async (progress: Progress) => {
          if (progress.kind === 'counted') counts.push(progress.done);
          if (queued !== undefined) return;
          queued = reasonOf(runner.answer(ORDER, { signal: waiting.signal }));
          expect(await reasonOf(runner.answer(ORDER))).toBe('full');
          waiting.abort();
          expect(await queued).toBe('cancelled');
          stop.abort();
        };
        const hooks = {
          signal: stop.signal,
          onProgress: (each: Progress) => void onProgress(each).catch(reject),
        };
        runner.answer(LONG, hooks).then(resolve, reject);
      });
      expect(reply.kind).toBe('stopped');
      expect(counts.length).toBeGreaterThan(0);
      expect('text' in reply && JSON.parse(reply.text).status).toBe('partial');
    } finally {
      await runner.close();
    }
  });
});

describe('over a socket', () => {
  let server: RunningServer;
  const log: LogEntry[] = [];

  beforeAll(async () => {
    server = await startServer({
      host: '127.0.0.1',
      port: 0,
      scenarios: folder,
      access: { kind: 'open' },
      origins: [],
      version: '0.0.0-test',
      limits: { ...SERVER_LIMITS, headSeconds: 1, requestSeconds: 1 },
      log: (entry) => log.push(entry),
      questionWorker: worker,
    });
  });

  afterAll(() => server.close());

  test('a question is answered, and others are answered while it is worked on', async () => {
    const asked = fetch(`${server.url}/plan`, { ...POST, body: '{"scenario":"works"}' });
    const order: string[] = [];
    void asked.then(() => order.push('plan'));
    for (let i = 0; i < 3; i++) {
      expect((await fetch(`${server.url}/health`)).status).toBe(200);
      order.push('health');
    }
    expect([200, 202]).toContain((await asked).status);
    expect(order.indexOf('health')).toBe(0);
  });

  test('the events of a job stream to its end', async () => {
    const body = JSON.stringify({ scenario: UNCERTAIN, seed: 5, draws: 30 });
    const job = await json(fetch(`${server.url}/risk`, { ...POST, body }));
    const events = await (await fetch(`${server.url}/jobs/${job.id}/events`)).text();
    expect(events).toContain('"state":"done"');
    const answer = await json(fetch(`${server.url}/jobs/${job.id}/answer`));
    expect(answer.answer.evaluated).toBe(30);
  });

  test('a request that comes too slowly is cut off, and one that is no HTTP refused', async () => {
    const head = `POST /plan HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n{"sc`;
    const said = await Promise.all([
      raw(server.url, head),
      raw(server.url, 'GET /health HTTP/1.1\r\nHost: lo'),
      raw(server.url, 'nonsense\r\n\r\n'),
      raw(server.url, `GET /health HTTP/1.1\r\nHost: localhost\r\nX-Long: ${'x'.repeat(100_000)}\r\n\r\n`),
    ]);
    const statuses = said.map((text) => {
      const [head, body] = text.split('\r\n\r\n');
      const { type, status } = JSON.parse(body);
      expect(head).toContain(`HTTP/1.1 ${status} `);
      expect(head).toContain('Content-Type: application/problem+json');
      return `${status} ${type}`;
    });
    expect(statuses).toEqual([
      '408 urn:cutpoint:problem:too-slow',
      '408 urn:cutpoint:problem:too-slow',
      '400 urn:cutpoint:problem:malformed',
      '431 urn:cutpoint:problem:long-head',
    ]);
    expect((await fetch(`${server.url}/health`)).status).toBe(200);
  });

  test('another Host is refused', async () => {
    const said = await raw(
      server.url,
      'GET /scenarios HTTP/1.1\r\nHost: evil.example\r\nConnection: close\r\n\r\n',
    );
    expect(said).toMatch(/^HTTP\/1.1 421/);
  });

  test('a body of many times what may be sent is refused once it is too long', async () => {
    const megabyte = new TextEncoder().encode(' '.repeat(1_000_000));
    let sent = 0;
    const body = new ReadableStream({
      async pull(controller) {
        // The server answers in this same thread: it must have its turn.
        await setImmediate();
        sent += 1;
        if (sent <= 500) controller.enqueue(megabyte);
        else controller.close();
      },
    });
    const asked = fetch(`${server.url}/plan`, { ...POST, body, duplex: 'half' } as RequestInit);
    const status = await asked.then(
      (response) => response.status,
      () => 'closed',
    );
    expect([413, 'closed']).toContain(status);
    expect(sent).toBeLessThan(500);
    expect((await fetch(`${server.url}/health`)).status).toBe(200);
  });
});

describe('cutpoint serve', () => {
  const start = (args: readonly string[], env: Record<string, string> = {}) => {
    const child = spawn(
      process.execPath,
      [program.main, 'serve', '--scenarios', folder, '--port', '0', ...args],
      {
        env: { ...process.env, ...env },
        stdio: ['ignore', 'pipe', 'pipe'],
      },
    );
    const said = { out: '', err: '' };
    child.stdout.on('data', (chunk) => {
      said.out += chunk;
    });
    child.stderr.on('data', (chunk) => {
      said.err += chunk;
    });
    const code = new Promise<number | null>((resolve) => child.on('close', resolve));
    return { child, said, code };
  };

  test('answers, logs lines of JSON, and ends what it is working on when it is asked to end', async () => {
    const { child, said, code } = start([]);
    await expect.poll(() => said.out, { timeout: 60_000 }).toContain('listens at');
    const [url] = /http:\/\/127\.0\.0\.1:\d+/.exec(said.out) ?? expect.fail();
    const asked = fetch(`${url}/plan`, { ...POST, body: '{"scenario":"works"}' });
    await fetch(`${url}/health`);
    const isTaken = async () => (await json(fetch(`${url}/health`))).jobs > 0 || said.err.includes('/plan');
    await expect.poll(isTaken, { timeout: 60_000 }).toBe(true);
    child.kill('SIGTERM');
    expect((await asked).status).toBe(200);
    expect(await code).toBe(0);
    const entries = said.err
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(entries.map(({ event }) => event)).toEqual(
      expect.arrayContaining(['started', 'request', 'closing', 'closed']),
    );
  });

  test('refuses to listen for others without a token, with a short one, or on a port that is taken', async () => {
    const alone = start(['--host', '0.0.0.0'], { CUTPOINT_TOKEN: '', CUTPOINT_READ_TOKEN: '' });
    const short = start(['--host', '0.0.0.0'], { CUTPOINT_TOKEN: 'short' });
    const wrong = start(['--port', '99999999']);
    expect(await Promise.all([alone.code, short.code, wrong.code])).toEqual([2, 2, 2]);
    expect(short.said.err).not.toContain('short ');
  });
});

/** What a server says to raw bytes until it hangs up. */
function raw(url: string, bytes: string): Promise<string> {
  const { hostname, port } = new URL(url);
  return new Promise((resolve) => {
    let said = '';
    const socket = connect(Number(port), hostname, () => socket.write(bytes));
    socket.on('data', (chunk) => {
      said += chunk;
    });
    socket.on('error', () => resolve(said));
    socket.on('close', () => resolve(said));
  });
}
