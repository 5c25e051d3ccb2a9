import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { SERVER_LIMITS } from '../../src/web/limits.js';
import { startServer } from '../../src/web/server.js';
import { builtProgram } from '../built-program.js';
import { printTable, quantile } from './measure.js';

const CLIENTS = 50;
const SECONDS = 30;

/**
 * 50 clients for 30 seconds on one-month plans, each with another price, so that none is known already; a client
 * that is refused comes again after a second. Beside them one client looks whether the server is there.
 */
it('answers 50 clients for 30 seconds', async () => {
  const { planWorker } = await builtProgram();
  const folder = mkdtempSync(join(tmpdir(), 'cutpoint-load-'));
  copyFileSync(
    fileURLToPath(new URL('../../scenarios/one-month.json', import.meta.url)),
    join(folder, 'one-month.json'),
  );
  const server = await startServer({
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
  const end = performance.now() + SECONDS * 1000;
  const times = new Map<string, number[]>();
  const memory: number[] = [];
  let asked = 0;
  const note = (what: string, milliseconds: number) =>
    times.set(what, [...(times.get(what) ?? []), milliseconds]);
  const client = async () => {
    while (performance.now() < end) {
      const started = performance.now();
      asked += 1;
      const patch = [{ op: 'replace', path: '/outlets/melt-shop/price', value: 100 + asked / 1000 }];
      const response = await fetch(`${server.url}/plan`, {
        method: 'POST',
        headers: { 'Content-Type': 'application/json' },
        body: JSON.stringify({ scenario: 'one-month', patch }),
      });
      await response.arrayBuffer();
      note(`plan ${response.status}`, performance.now() - started);
      if (response.status !== 200) await setTimeout(1000);
    }
  };
  const looker = async () => {
    while (performance.now() < end) {
      const started = performance.now();
      await (await fetch(`${server.url}/health`)).arrayBuffer();
      note('health', performance.now() - started);
      memory.push(process.memoryUsage().rss / 1e6);
      await setTimeout(20);
    }
  };
  await Promise.all([...Array.from({ length: CLIENTS }, client), looker()]);
  await server.close();
  rmSync(folder, { recursive: true });
  const rows = [...times].map(([what, own]) => ({
    what,
    answers: own.length,
    'a second': own.length / SECONDS,
    'p50 ms': quantile(own, 0.5),
    'p99 ms': quantile(own, 0.99),
  }));
  printTable(`${CLIENTS} clients for ${SECONDS} s, ${SERVER_LIMITS.threads} solving threads`, rows);
  const third = Math.floor(memory.length / 3);
  printTable('Memory of the process, clients included, MB', [
    {
      'first third': quantile(memory.slice(0, third), 0.5),
      'last third': quantile(memory.slice(-third), 0.5),
      most: Math.max(...memory),
    },
  ]);
  const statuses = [...times.keys()].filter((what) => what.startsWith('plan'));
  expect(statuses.filter((what) => !['plan 200', 'plan 429', 'plan 503'].includes(what))).toEqual([]);
});
