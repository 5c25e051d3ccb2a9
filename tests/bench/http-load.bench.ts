import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { SERVER_LIMITS } from '../../src/web/limits.js';
import { type RunningServer, startServer } from '../../src/web/server.js';
import { builtProgram } from '../built-program.js';
import { printTable, quantile } from './measure.js';

const CLIENTS = 50;
const SECONDS = 30;

let server: RunningServer;
let folder: string;

beforeAll(async () => {
  const { planWorker } = await builtProgram();
  folder = mkdtempSync(join(tmpdir(), 'cutpoint-load-'));
  for (const name of ['one-month.json', 'twelve-months.json']) {
    copyFileSync(fileURLToPath(new URL(`../../scenarios/${name}`, import.meta.url)), join(folder, name));
  }
  server = await startServer({
    host: '127.0.0.1',
    port: 0,
    scenarios: folder,
    access: { kind: 'open' },
    origins: [],
    version: 'bench',
    limits: { ...SERVER_LIMITS, waitSeconds: 60 },
    log: () => {},
    questionWorker: new URL('question-worker.js', planWorker),
  });
}, 300_000);

afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true });
});

let asked = 0;

/** A plan with another price each time, so that none is known already. */
async function askPlan(scenario: string): Promise<number> {
  asked += 1;
  const patch = [{ op: 'replace', path: '/outlets/melt-shop/price', value: 100 + asked / 1000 }];
  const response = await fetch(`${server.url}/plan`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json' },
    body: JSON.stringify({ scenario, patch }),
  });
  await response.arrayBuffer();
  return response.status;
}

/** Times by what was asked and answered. */
class Times {
  private readonly times = new Map<string, number[]>();

  async of<T>(what: (answer: T) => string, work: () => Promise<T>): Promise<T> {
    const started = performance.now();
    const answer = await work();
    const key = what(answer);
    this.times.set(key, [...(this.times.get(key) ?? []), performance.now() - started]);
    return answer;
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
    }));
  }
}

async function look(times: Times, end: number, also: () => void = () => {}): Promise<void> {
  while (performance.now() < end) {
    await times.of(
      () => 'health',
      async () => (await fetch(`${server.url}/health`)).arrayBuffer(),
    );
    also();
    await setTimeout(20);
  }
}

/**
 * 50 clients for 30 seconds on one-month plans; one that is refused comes again after a second. Beside them one
 * client looks whether the server is there.
 */
it('answers 50 clients for 30 seconds', async () => {
  const end = performance.now() + SECONDS * 1000;
  const times = new Times();
  const memory: number[] = [];
  const client = async () => {
    while (performance.now() < end) {
      const status = await times.of(
        (answer) => `plan ${answer}`,
        () => askPlan('one-month'),
      );
      if (status !== 200) await setTimeout(1000);
    }
  };
  const note = () => memory.push(process.memoryUsage().rss / 1e6);
  await Promise.all([...Array.from({ length: CLIENTS }, client), look(times, end, note)]);
  printTable(
    `${CLIENTS} clients for ${SECONDS} s, ${SERVER_LIMITS.threads} solving threads`,
    times.rows(SECONDS),
  );
  const third = Math.floor(memory.length / 3);
  printTable('Memory of the process, clients included, MB', [
    {
      'first third': quantile(memory.slice(0, third), 0.5),
      'last third': quantile(memory.slice(-third), 0.5),
      most: Math.max(...memory),
    },
  ]);
  const others = times.kinds().filter((what) => !/^(health|plan (200|429|503))$/.test(what));
  expect(others).toEqual([]);
});

it('answers others while two threads solve a year', async () => {
  const end = performance.now() + 15_000;
  const times = new Times();
  const client = async () => {
    while (performance.now() < end)
      await times.of(
        (answer) => `plan ${answer}`,
        () => askPlan('twelve-months'),
      );
  };
  await Promise.all([client(), client(), look(times, end)]);
  printTable('Two clients on twelve months, one that looks', times.rows(15));
  expect(times.kinds().sort()).toEqual(['health', 'plan 200']);
});
