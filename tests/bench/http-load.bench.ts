import { type ChildProcess, spawn } from 'node:child_process';
import { copyFileSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { builtProgram } from '../built-program.js';
import { printTable, quantile } from './measure.js';

const CLIENTS = 50;
const SECONDS = 30;

/** Milliseconds between two looks of the client that only looks. */
const BETWEEN_LOOKS = 20;

let server: ChildProcess;
let url: string;
let folder: string;

/** The built program as a process of its own, so that neither its time nor its memory are those of the clients. */
beforeAll(async () => {
  const { main } = await builtProgram();
  folder = mkdtempSync(join(tmpdir(), 'cutpoint-load-'));
  for (const name of ['one-month.json', 'twelve-months.json']) {
    copyFileSync(fileURLToPath(new URL(`../../scenarios/${name}`, import.meta.url)), join(folder, name));
  }
  server = spawn(process.execPath, [main, 'serve', '--port', '0', '--scenarios', folder], {
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  url = await new Promise<string>((resolve, reject) => {
    server.once('exit', () => reject(new Error('the server did not start')));
    server.stdout?.on('data', (chunk: Buffer) => {
      const [found] = /http:\/\/\S+:\d+/.exec(chunk.toString()) ?? [];
      if (found !== undefined) resolve(found);
    });
  });
}, 300_000);

afterAll(async () => {
  const ended = new Promise((resolve) => server.once('exit', resolve));
  server.kill('SIGTERM');
  await ended;
  rmSync(folder, { recursive: true });
});

interface Asked {
  readonly method: string;
  readonly path: string;
  readonly body?: string;
}

/** The status of a response that has arrived whole; the same connections are used again and again. */
function send({ method, path, body }: Asked): Promise<number> {
  return new Promise((resolve, reject) => {
    const headers = { 'Content-Type': 'application/json', Prefer: 'wait=60' };
    const sent = request(`${url}${path}`, { method, headers }, (response) => {
      response.resume();
      response.once('end', () => resolve(response.statusCode ?? 0));
    });
    sent.once('error', reject);
    sent.end(body);
  });
}

let asked = 0;

/** A plan with another price each time, so that none is known already. */
function askPlan(scenario: string): Promise<number> {
  asked += 1;
  const patch = [{ op: 'replace', path: '/outlets/melt-shop/price', value: 100 + asked / 1000 }];
  return send({ method: 'POST', path: '/plan', body: JSON.stringify({ scenario, patch }) });
}

/** Times by what was asked and answered. */
class Times {
  private readonly times = new Map<string, number[]>();

  async of(what: string, work: () => Promise<number>): Promise<number> {
    const started = performance.now();
    const status = await work();
    const key = `${what} ${status}`;
    const own = this.times.get(key) ?? [];
    own.push(performance.now() - started);
    this.times.set(key, own);
    return status;
  }

  kinds(): string[] {
    return [...this.times.keys()];
  }

  rows(seconds: number) {
    return [...this.times].map(([what, own]) => ({
      what,
      answers: own.length,
      'a second': own.length / seconds,
      'p50 ms': quantile(own, 0.5),
      'p99 ms': quantile(own, 0.99),
      'most ms': quantile(own, 1),
    }));
  }
}

/** Megabytes of memory that the server's process has, where the system says (proc(5)). */
function memory(): number {
  try {
    const [, kilobytes] = /^VmRSS:\s+(\d+)/m.exec(readFileSync(`/proc/${server.pid}/status`, 'utf8')) ?? [];
    return Number(kilobytes) / 1000;
  } catch {
    return Number.NaN;
  }
}

async function look(times: Times, end: number, also: () => void = () => {}): Promise<void> {
  while (performance.now() < end) {
    await times.of('health', () => send({ method: 'GET', path: '/health' }));
    also();
    await setTimeout(BETWEEN_LOOKS);
  }
}

/** Clients that ask for plans without a pause; one that is refused comes again after a second. */
async function load(scenario: string, clients: number, seconds: number) {
  const end = performance.now() + seconds * 1000;
  const times = new Times();
  const sizes: number[] = [];
  const client = async () => {
    while (performance.now() < end) {
      const status = await times.of('plan', () => askPlan(scenario));
      if (status !== 200) await setTimeout(1000);
    }
  };
  await Promise.all([
    ...Array.from({ length: clients }, client),
    look(times, end, () => sizes.push(memory())),
  ]);
  return { times, sizes };
}

function printMemory(sizes: readonly number[]): void {
  const tenth = Math.floor(sizes.length / 10);
  const medians = Array.from({ length: 10 }, (_, i) =>
    quantile(sizes.slice(i * tenth, (i + 1) * tenth), 0.5),
  );
  printTable('Memory of the server by tenth of the time, MB', [
    Object.fromEntries(medians.map((median, i) => [`${i + 1}`, Math.round(median)])),
  ]);
}

it(`answers ${CLIENTS} clients for ${SECONDS} seconds`, async () => {
  const { times, sizes } = await load('one-month', CLIENTS, SECONDS);
  printTable(`${CLIENTS} clients on one month for ${SECONDS} s, two solving threads`, times.rows(SECONDS));
  printMemory(sizes);
  const others = times.kinds().filter((what) => !/^(health 200|plan (200|429|503))$/.test(what));
  expect(others).toEqual([]);
});

it('answers others while two threads solve a year', async () => {
  const { times, sizes } = await load('twelve-months', 2, SECONDS / 2);
  printTable('Two clients on twelve months, one that looks', times.rows(SECONDS / 2));
  printMemory(sizes);
  expect(times.kinds().sort()).toEqual(['health 200', 'plan 200']);
});
