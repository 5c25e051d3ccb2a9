import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type AnalysisPool, openAnalysisPool } from '../../src/host/analysis-pool.js';
import { assessRiskInPool } from '../../src/host/assess-risk-in-pool.js';
import { builtProgram } from '../built-program.js';
import { generateScenario } from '../generate/plant.js';

/** For machines on which other tests run beside this one: 200 ms are for an idle one. */
const SLACK = 4;

describe('a pool of workers', () => {
  let worker: URL;
  const pools: AnalysisPool[] = [];
  beforeAll(async () => {
    worker = new URL('analysis-worker.js', (await builtProgram()).planWorker);
  }, 180_000);
  afterAll(() => Promise.all(pools.map((pool) => pool.close())));

  const open = (workers: number) => {
    const pool = openAnalysisPool({ worker, workers });
    pools.push(pool);
    return pool;
  };
  const document = generateScenario(4, { months: 2, features: { uncertainty: true, response: false } });

  it('gives the same answer to the last digit with one worker and with two', async () => {
    const request = { seed: 5, draws: 600, level: 0 };
    const answers = await Promise.all(
      [1, 2].map((workers) => assessRiskInPool(document, request, open(workers))),
    );
    const [one, two] = answers.map((answer) =>
      answer !== undefined && 'values' in answer ? { ...answer, model: undefined } : answer,
    );
    expect(one).toEqual(two);
    expect(one !== undefined && 'values' in one ? one.values.length : 0).toBe(600);
  });

  it('stops within 200 ms and keeps what was found, marked as a part', async () => {
    const pool = open(2);
    let stopped = Number.NaN;
    const answer = await assessRiskInPool(document, { seed: 5, draws: 4000 }, pool, ({ done }) => {
      if (done < 40 || !Number.isNaN(stopped)) return;
      stopped = performance.now();
      pool.stop();
    });
    const took = performance.now() - stopped;
    expect(answer?.status).toBe('partial');
    expect(answer !== undefined && 'evaluated' in answer ? answer.evaluated : 0).toBeGreaterThan(0);
    expect(took).toBeLessThan(200 * SLACK);
  });

  it('reports progress up to the end', async () => {
    const seen: number[] = [];
    await assessRiskInPool(document, { seed: 5, draws: 60 }, open(1), ({ done }) => seen.push(done));
    expect(seen.at(-1)).toBe(60);
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
  });

  it('answers a sweep, a tornado and a plan', async () => {
    const pool = open(2);
    const pointers = [`/feeds/${document.feeds[0].id}/tippingFee`];
    const parameter = { pointers, kind: 'factor' } as const;
    const [sweep, tornado, plan] = await Promise.all([
      pool.answer({ kind: 'sweep', document, request: { parameter, from: 0.5, to: 2 } }),
      pool.answer({ kind: 'tornado', document, items: [{ parameter, low: 0.9, high: 1.1 }] }),
      pool.answer({ kind: 'plan', document }),
    ]);
    expect([sweep?.status, tornado?.status, plan?.answer?.status]).toEqual([
      'complete',
      'complete',
      'optimal',
    ]);
  });
});
