import { beforeAll, describe, expect, it } from 'vitest';
import { planMonths } from '../../../src/analysis/monthly-plan.js';
import { sweep } from '../../../src/analysis/sweep/sweep.js';
import type { SweepAnswer } from '../../../src/analysis/sweep/sweep-answer.js';
import { sweepMap } from '../../../src/analysis/sweep/sweep-map.js';
import type { Parameter } from '../../../src/analysis/variant/parameter.js';
import { familyOf } from '../../../src/analysis/variant/program-family.js';
import { loadSolver, type Solver } from '../../../src/solver/choose.js';
import { generateScenario } from '../../generate/plant.js';
import { EXAMPLE as EXAMPLE_SCENARIO } from '../../plant/example-scenario.js';

/** The example plant, hourly crews and no response: a contract by an index between a floor and a ceiling. */
const EXAMPLE = {
  ...EXAMPLE_SCENARIO,
  crews: EXAMPLE_SCENARIO.crews!.map((crew) => ({ ...crew, staffing: 'hourly' as const })),
  feeds: EXAMPLE_SCENARIO.feeds.map(({ response: _, ...feed }) => feed),
};

describe('a sweep', () => {
  let solver: Solver;
  beforeAll(async () => {
    solver = await loadSolver('highs');
  });

  const swept = (document: unknown, pointer: string, kind: Parameter['kind'], from: number, to: number) => {
    const answer = sweep(document, { parameter: { pointers: [pointer], kind }, from, to }, solver);
    if (answer.status === 'problems') throw new Error(answer.problems[0].message);
    return answer;
  };
  const fresh = (document: unknown, pointer: string, kind: Parameter['kind'], at: number): number => {
    const found = familyOf(document, { pointers: [pointer], kind });
    const member = found.ok ? found.family(at) : undefined;
    const plan = member?.ok ? planMonths(member.formulation.plant, solver) : undefined;
    return plan?.status === 'optimal' ? plan.plan.statement.presentValue : Number.NaN;
  };
  const between = ({ points }: SweepAnswer, at: number): number => {
    const k = points.findIndex((point, i) => point.at <= at && at <= (points[i + 1]?.at ?? -1));
    const [a, b] = [points[k], points[k + 1]];
    return a.value + ((b.value - a.value) * (at - a.at)) / (b.at - a.at);
  };

  it('splits the range where an index price meets its floor and its ceiling, and stays exact', () => {
    const answer = swept(EXAMPLE, '/indices/rubber/values', 'factor', 0.4, 1.6);
    expect(answer.exact).toBe(true);
    for (const at of [0.45, 0.71, 0.83, 0.97, 1.13, 1.31, 1.55]) {
      const off = Math.abs(between(answer, at) - fresh(EXAMPLE, '/indices/rubber/values', 'factor', at));
      expect(off / answer.scale, `at ${at}`).toBeLessThan(1e-8);
    }
    // base + 0.6 · (255·f − 250) = 220 in February: f = (250 + 25/0.6) / 255.
    const ceiling = answer.points.find(({ at }) => Math.abs(at - (250 + 25 / 0.6) / 255) < 1e-9);
    expect([ceiling?.kind, ceiling?.isBend]).toEqual(['breakpoint', true]);
  });

  it('answers the valid part of a range and says why the rest is none', () => {
    const answer = swept(EXAMPLE, '/disposals/landfill/haulage', 'value', -20, 30);
    expect(answer.ranges.map(({ from, to, status }) => [from, to, status])).toEqual([
      [-20, 0, 'invalid'],
      [0, 30, 'answered'],
    ]);
    const [invalid] = answer.ranges;
    expect(invalid.status === 'invalid' ? invalid.problems[0].pointer : '').toContain('/disposals/0/haulage');
  });

  it('finds exactly where the feasible part ends, and the limits that end it', () => {
    const hard = {
      ...EXAMPLE,
      contracts: EXAMPLE.contracts!.map(({ shortfall: _, term: __, ...contract }) => ({
        ...contract,
        monthly: { min: 10 },
      })),
    };
    const answer = swept(hard, '/contracts/mats/monthly/min', 'value', 0, 100_000);
    const [first, second] = answer.ranges;
    expect([first.status, second.status]).toEqual(['answered', 'infeasible']);
    expect(second.status === 'infeasible' ? second.limits.length : 0).toBeGreaterThan(0);
    const edge = first.to;
    expect(fresh(hard, '/contracts/mats/monthly/min', 'value', edge * (1 - 1e-6))).not.toBeNaN();
    expect(fresh(hard, '/contracts/mats/monthly/min', 'value', edge * (1 + 1e-5))).toBeNaN();
  });

  it.each([
    ['/steps/milling/energy', 10, 200, 'matrix'],
    ['/steps/milling/throughput', 1, 3, 'curved'],
    ['/discountRate', 0, 0.3, 'curved'],
  ])('samples %s with a measured error, which it states', (pointer, from, to, reach) => {
    const parameter = { pointers: [pointer], kind: 'value' } as const;
    const answer = sweep(EXAMPLE, { parameter, from, to, mostPoints: 33 }, solver);
    if (answer.status === 'problems') throw new Error('problems');
    expect([answer.exact, answer.reach, answer.error?.kind]).toEqual([false, reach, 'measured']);
    for (const { at, value } of answer.points.filter((_, i) => i % 8 === 0)) {
      expect(Math.abs(value - fresh(EXAMPLE, pointer, 'value', at)) / answer.scale).toBeLessThan(1e-7);
    }
    for (const share of [0.17, 0.52, 0.83]) {
      const at = from + share * (to - from);
      const off = Math.abs(between(answer, at) - fresh(EXAMPLE, pointer, 'value', at));
      expect(off).toBeLessThanOrEqual(2 * answer.error!.amount + 1e-7 * answer.scale);
    }
  });

  it.each([3, 9, 20])('asks no more than %i points where it may ask no more', (mostPoints) => {
    const parameter = { pointers: ['/discountRate'], kind: 'value' } as const;
    const answer = sweep(EXAMPLE, { parameter, from: 0, to: 0.3, mostPoints, tolerance: 1e-9 }, solver);
    expect('points' in answer ? answer.points.length : Number.NaN).toBeLessThanOrEqual(mostPoints);
    expect('error' in answer ? answer.error?.kind : '').toBe('measured');
  });

  it('samples with a proved error where prices and limits move together', () => {
    const document = generateScenario(11, {
      months: 1,
      features: { response: false, otherBases: false, seriesPrices: false },
    });
    const feed = document.feeds[0];
    const scaled = {
      ...document,
      feeds: [{ ...feed, tippingFee: 50, available: 2000, committed: 0 }, ...document.feeds.slice(1)],
    };
    const pointers = [`/feeds/${feed.id}/tippingFee`, `/feeds/${feed.id}/available`];
    const request = { parameter: { pointers, kind: 'factor' }, from: 0.1, to: 2, tolerance: 1e-3 } as const;
    const answer = sweep(scaled, request, solver);
    if (answer.status === 'problems') throw new Error('problems');
    expect([answer.exact, answer.reach, answer.error?.kind]).toEqual([false, 'both', 'proved']);
    const found = familyOf(scaled, request.parameter);
    for (const at of [0.13, 0.4, 0.77, 1.1, 1.63, 1.9]) {
      const member = found.ok ? found.family(at) : undefined;
      const solved = member?.ok ? solver.solve(member.formulation.program) : undefined;
      if (solved?.kind !== 'solved') throw new Error('no plan');
      const off = Math.abs(between(answer, at) - solved.certificate.objective);
      expect(off, `at ${at}`).toBeLessThanOrEqual(answer.error!.amount + 1e-8 * answer.scale);
    }
  });

  it('of a number that reaches nothing is flat and exact', () => {
    const unused = [{ id: 'unused', base: 100, values: 100 }, ...EXAMPLE.indices!];
    const answer = swept({ ...EXAMPLE, indices: unused }, '/indices/unused/base', 'value', 50, 200);
    expect([answer.exact, answer.reach, answer.points.map(({ slopeRight }) => slopeRight)]).toEqual([
      true,
      'nothing',
      [0, undefined],
    ]);
    expect(answer.points[0].value).toBe(answer.points[1].value);
  });

  it('with whole numbers is measured, at values of fresh plans', () => {
    const answer = sweep(
      EXAMPLE_SCENARIO,
      { parameter: { pointers: ['/outlets/scrap/price'], kind: 'value' }, from: 60, to: 200, mostPoints: 8 },
      solver,
    );
    if (answer.status === 'problems') throw new Error('problems');
    expect([answer.exact, answer.reach, answer.error?.kind]).toEqual([false, 'whole numbers', 'measured']);
  });

  it('with whole numbers makes each plan to within the tolerance, and says how far it may be off', () => {
    const request = {
      parameter: { pointers: ['/outlets/scrap/price'], kind: 'value' },
      from: 60,
      to: 200,
      mostPoints: 8,
    } as const;
    const answerTo = (tolerance: number) => {
      const answer = sweep(EXAMPLE_SCENARIO, { ...request, tolerance }, solver);
      if (answer.status === 'problems') throw new Error('problems');
      const { planGap = Number.NaN, points, scale } = answer;
      expect(planGap).toBeLessThanOrEqual(tolerance * scale * (1 + 1e-9));
      return { planGap, points };
    };
    const [fine, coarse] = [1e-7, 0.2].map(answerTo);
    expect(coarse.planGap).toBeGreaterThan(fine.planGap);
    for (const { at, value } of fine.points) {
      const other = coarse.points.find((point) => point.at === at);
      if (other !== undefined)
        expect(value - other.value, `at ${at}`).toBeLessThanOrEqual(coarse.planGap + 1e-6);
    }
    const linear = sweep(EXAMPLE, request, solver);
    expect('planGap' in linear).toBe(false);
  });

  it('stopped, keeps the points that were asked and says so', () => {
    let asked = 0;
    const answer = sweep(
      EXAMPLE,
      { parameter: { pointers: ['/outlets/scrap/price'], kind: 'factor' }, from: 0, to: 20 },
      solver,
      {
        cancelled: () => asked >= 2,
        onProgress: () => {
          asked += 1;
        },
      },
    );
    expect([answer.status, 'points' in answer ? answer.points.length : 0]).toEqual(['partial', 2]);
  });

  it('of two numbers is one curve a row', () => {
    const by = {
      parameter: { pointers: ['/disposals/landfill/charge'], kind: 'value' },
      from: 50,
      to: 150,
      rows: 3,
    } as const;
    const parameter = { pointers: ['/outlets/scrap/price'], kind: 'value' } as const;
    const answer = sweepMap(EXAMPLE, { parameter, from: 60, to: 200, by }, solver);
    if (answer.status !== 'complete') throw new Error(answer.status);
    expect(answer.rows.map((row) => row.by)).toEqual([50, 100, 150]);
    expect(answer.rows.every((row) => row.answer.exact)).toBe(true);
  });
});
