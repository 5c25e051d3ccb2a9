import { readFileSync } from 'node:fs';
import { MessageChannel } from 'node:worker_threads';
import { beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { answer } from '../../src/host/analysis-worker.js';
import { answerOrder } from '../../src/host/answer-order.js';
import type { engineApart } from '../../src/host/engine-apart.js';
import { workerRunner } from '../../src/host/worker-runner.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { builtProgram } from '../built-program.js';

/** For machines on which other tests run beside this one: 200 ms are for an idle one. */
const SLACK = 4;

const opened = vi.hoisted(() => vi.fn());
vi.mock(import('../../src/host/engine-apart.js'), async (original) => {
  const real = await original();
  return {
    ...real,
    engineApart: (...args: Parameters<typeof engineApart>) => {
      const engine = real.engineApart(...args);
      return {
        ...engine,
        open: (program) => {
          opened();
          return engine.open(program);
        },
      };
    },
  };
});

let program: URL;
let month: Scenario;
let year: Scenario;
beforeAll(async () => {
  program = new URL('question-worker.js', (await builtProgram()).planWorker);
  [month, year] = ['one-month', 'twelve-months'].map((name) => {
    const file = new URL(`../../scenarios/${name}.json`, import.meta.url);
    return JSON.parse(readFileSync(file, 'utf8')) as Scenario;
  });
}, 180_000);
beforeEach(() => opened.mockClear());

describe('whole numbers are searched in a thread that can be ended', () => {
  const watch = { cancelled: () => false, onProgress: () => {} };

  const pointers = ['/feeds/workshops/tippingFee'];
  const parameter = { pointers, kind: 'factor' };
  it.each([
    ['fee', true, { feeds: [{ feed: 'workshops', low: 1.6, high: 1.6 }], points: 2 }],
    ['tornado', true, { items: [{ parameter, low: 0.9, high: 1.1 }] }],
    ['risk', true, { seed: 7, draws: 2 }],
    ['plan', false, {}],
    ['explain', false, {}],
  ] as const)('for the question %s of the server: %s', async (...row) => {
    const [question, isApart, options] = row;
    const order = { question, scenario: month, options, engine: 'highs', seconds: 60 } as const;
    const reply = await answerOrder(order, watch);
    expect(reply.kind).toBe('answered');
    expect(opened.mock.calls.length > 0).toBe(isApart);
  });

  it('for an analysis of the command line', async () => {
    const { port1, port2 } = new MessageChannel();
    const stopped = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
    await answer({
      work: { order: { kind: 'plan', document: month }, engine: 'highs' },
      stopped,
      port: port2,
    });
    port1.close();
    expect(opened).toHaveBeenCalled();
  });
});

it('the best fee of a year by the shift, asked of the server, stops within 200 ms', async () => {
  const runner = workerRunner({ program, threads: 1, waiting: 1, megabytes: 256, grace: 30 });
  const options = { feeds: [{ feed: 'workshops', low: 1, high: 2.5 }] };
  try {
    const stop = new AbortController();
    let stopped = Number.NaN;
    const onStart = () =>
      setTimeout(() => {
        stopped = performance.now();
        stop.abort();
      }, 2000);
    const order = { question: 'fee', scenario: year, options, engine: 'highs', seconds: 60 } as const;
    await runner.answer(order, { signal: stop.signal, onStart });
    expect(performance.now() - stopped).toBeLessThan(200 * SLACK);
  } finally {
    await runner.close();
  }
});
