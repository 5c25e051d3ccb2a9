import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { feesThatEarnMost } from '../../../src/analysis/fee/fee.js';
import { assessRisk } from '../../../src/analysis/risk/assess-risk.js';
import { sweep } from '../../../src/analysis/sweep/sweep.js';
import { tornado, withinShare } from '../../../src/analysis/tornado/tornado.js';
import type { Scenario } from '../../../src/scenario/schema/scenario.js';
import { loadSolver, type Solver } from '../../../src/solver/choose.js';
import { longestSilence } from './silence.js';

/** What a stop may take, in milliseconds. */
const STOP = 200;

const shipped = JSON.parse(
  readFileSync(new URL('../../../scenarios/twelve-months.json', import.meta.url), 'utf8'),
) as Scenario;
const linear: Scenario = {
  ...shipped,
  crews: shipped.crews?.map((crew) => ({ ...crew, staffing: 'hourly' as const })),
};
const withoutResponse: Scenario = {
  ...linear,
  feeds: linear.feeds.map(({ response: _, ...feed }) => feed),
};
const price = { pointers: ['/outlets/turf/tiers/0/price'], kind: 'factor' } as const;

/** The same scenario over and over: the first time the functions are not compiled yet. */
const warmedUp = (call: (cancelled: () => boolean) => void) => {
  call(() => false);
  return longestSilence(call);
};

describe('a long question over twelve months asks at least every 200 ms whether it is to stop', () => {
  let solver: Solver;
  beforeAll(async () => {
    solver = await loadSolver('highs');
  });

  it.each<[string, (solver: Solver, cancelled: () => boolean) => unknown]>([
    [
      'a sweep, exact',
      (s, cancelled) => sweep(withoutResponse, { parameter: price, from: 0.8, to: 1.2 }, s, { cancelled }),
    ],
    [
      'a sweep out of the valid range',
      (s, cancelled) => sweep(withoutResponse, { parameter: price, from: -1, to: 0.01 }, s, { cancelled }),
    ],
    [
      'a sweep of a discount rate',
      (s, cancelled) =>
        sweep(
          withoutResponse,
          { parameter: { pointers: ['/discountRate'], kind: 'value' }, from: 0, to: 0.2, mostPoints: 17 },
          s,
          { cancelled },
        ),
    ],
    [
      'the best fee',
      (s, cancelled) =>
        feesThatEarnMost(linear, { feeds: [{ feed: 'workshops', low: 1, high: 3 }], points: 5 }, s, {
          cancelled,
        }),
    ],
    [
      'a tornado',
      (s, cancelled) => tornado(withoutResponse, [withinShare([price.pointers[0]], 0.1)], s, { cancelled }),
    ],
    [
      'a risk analysis',
      (s, cancelled) => assessRisk(withoutResponse, { seed: 7, draws: 300 }, s, { cancelled }),
    ],
  ])('%s', (_, ask) => {
    expect(warmedUp((cancelled) => ask(solver, cancelled))).toBeLessThan(STOP);
  });

  it('a sweep of a plan with whole numbers stops inside a solve and keeps the points it has', () => {
    const request = { parameter: price, from: 0.99, to: 1.01, mostPoints: 3 };
    let points = 0;
    let asked = 0;
    const answer = sweep(shipped, request, solver, {
      onProgress: ({ done }) => {
        points = done;
      },
      cancelled: () => {
        if (points > 0) asked += 1;
        return asked > 100;
      },
    });
    if (answer.status === 'problems') throw new Error('problems');
    expect([answer.status, answer.points.length]).toEqual(['partial', 1]);
    expect(answer.ranges.map(({ status }) => status)).toContain('not asked');
  });
});
