import { beforeAll, describe, expect, it } from 'vitest';
import { feesThatEarnMost } from '../../../src/analysis/fee/fee.js';
import { planMonths } from '../../../src/analysis/monthly-plan.js';
import { familyOf } from '../../../src/analysis/variant/program-family.js';
import { formulate } from '../../../src/planning/formulate.js';
import { derivePlant } from '../../../src/plant/derive-plant.js';
import { hasIntegers } from '../../../src/program/linear-program.js';
import type { Feed, Scenario } from '../../../src/scenario/schema/scenario.js';
import { loadSolver, type Solver } from '../../../src/solver/choose.js';
import { generateScenario } from '../../generate/plant.js';

/** A generated plant whose first feed answers its fee in a given way. */
function withResponse(
  seed: number,
  months: number,
  change: Partial<Feed>,
): { document: Scenario; feed: string } {
  const document = generateScenario(seed, { months, features: { response: false, otherBases: false } });
  const feeds = document.feeds.map((feed, i) => (i === 0 ? { ...feed, tippingFee: 60, ...change } : feed));
  return { document: { ...document, feeds }, feed: feeds[0].id };
}

describe('the fee that earns most', () => {
  let solver: Solver;
  beforeAll(async () => {
    solver = await loadSolver('highs');
  });

  /** The best of fresh programs at many fees. */
  function best(document: Scenario, feed: string, low: number, high: number, cells: number) {
    const found = familyOf(document, { pointers: [`/feeds/${feed}/tippingFee`], kind: 'value' });
    if (!found.ok) throw new Error('no family');
    let most = { at: Number.NaN, value: Number.NEGATIVE_INFINITY };
    for (let i = 0; i <= cells; i += 1) {
      const at = low + (i * (high - low)) / cells;
      const member = found.family(at);
      const solved = member.ok ? solver.solve(member.formulation.program) : undefined;
      if (solved?.kind !== 'solved') continue;
      if (solved.certificate.objective > most.value) most = { at, value: solved.certificate.objective };
    }
    return most;
  }

  it.each([
    [1, -1.6, 40],
    [2, -2.5, undefined],
    [4, -1, 30],
    [5, -1.3, 50],
  ])('beats a fine grid on plant %i with elasticity %f and is bounded', (seed, elasticity, committedFee) => {
    const response = { elasticity, at: 60 };
    const { document, feed } = withResponse(seed, 2, {
      response,
      ...(committedFee === undefined ? { committed: 0 } : { committedFee }),
    });
    const answer = feesThatEarnMost(document, { feeds: [{ feed, low: 20, high: 180 }], points: 2 }, solver);
    if (answer.status !== 'complete') throw new Error(answer.status);
    const grid = best(document, feed, 20, 180, 80);
    expect(answer.value).toBeGreaterThanOrEqual(grid.value - 1e-4 * answer.scale);
    expect(grid.value).toBeLessThanOrEqual((answer.bound ?? Number.NaN) + 1e-7 * answer.scale);
    expect(answer.gap).toBeLessThanOrEqual(1e-4);
  });

  it('is bounded from above also where the search ends early: no fresh program earns more than the bound', () => {
    for (const [seed, elasticity] of [
      [1, -1.6],
      [2, -2.5],
      [5, -1.3],
    ]) {
      const response = { elasticity, at: 60 };
      const { document, feed } = withResponse(seed, 1, { response, committed: 0, committedFee: 40 });
      const request = { feeds: [{ feed, low: 20, high: 600 }], points: 2, gap: 0.5 };
      const answer = feesThatEarnMost(document, request, solver);
      if (answer.status !== 'complete') throw new Error(answer.status);
      const grid = best(document, feed, 20, 600, 150);
      expect(grid.value, `plant ${seed}`).toBeLessThanOrEqual(
        (answer.bound ?? Number.NaN) + 1e-7 * answer.scale,
      );
    }
  });

  it.each([0, -0.5])('is the upper bound with elasticity %f, and only the range limits it', (elasticity) => {
    const { document, feed } = withResponse(3, 1, { response: { elasticity, at: 60 } });
    const answer = feesThatEarnMost(document, { feeds: [{ feed, low: 20, high: 90 }], points: 2 }, solver);
    if (answer.status !== 'complete') throw new Error(answer.status);
    expect(answer.feeds[0].fee).toBeCloseTo(90, 9);
    expect(answer.feeds[0].standing).toBe(elasticity === 0 ? 'no response' : 'inelastic');
  });

  it('with a table is one of the listed fees, the best of them', () => {
    const { document, feed } = withResponse(2, 1, {
      committed: 0,
      committedFee: 40,
      response: [
        { fee: 40, available: 900 },
        { fee: 70, available: 500 },
        { fee: 95, available: 60 },
      ],
    });
    const answer = feesThatEarnMost(document, { feeds: [{ feed, low: 20, high: 120 }], points: 2 }, solver);
    if (answer.status !== 'complete') throw new Error(answer.status);
    const grid = best(document, feed, 20, 120, 40);
    expect([40, 70, 95, 120]).toContain(answer.feeds[0].fee);
    expect(answer.value).toBeGreaterThanOrEqual(grid.value - 1e-6 * answer.scale);
    expect(answer.gap).toBeLessThanOrEqual(1e-4);
  });

  it('of several feeds that compete is at least as good as a grid of both, and bounded', () => {
    const document = ((): Scenario => {
      for (let seed = 1; ; seed += 1) {
        const drawn = generateScenario(seed, { months: 1, features: { response: false, otherBases: false } });
        if (drawn.feeds.length < 2) continue;
        const feeds = drawn.feeds.map((feed) => ({
          ...feed,
          tippingFee: 60,
          committedFee: 50,
          response: { elasticity: -1.8, at: 60 },
        }));
        return { ...drawn, feeds };
      }
    })();
    const feeds = document.feeds.slice(0, 2).map(({ id: feed }) => ({ feed, low: 30, high: 150 }));
    const answer = feesThatEarnMost(document, { feeds, points: 2 }, solver);
    if (answer.status !== 'complete') throw new Error(answer.status);
    let most = Number.NEGATIVE_INFINITY;
    for (let at = 30; at <= 150; at += 10) {
      const other = {
        ...document,
        feeds: document.feeds.map((own, i) => (i === 1 ? { ...own, tippingFee: at } : own)),
      };
      most = Math.max(most, best(other, feeds[0].feed, 30, 150, 12).value);
    }
    expect(answer.value).toBeGreaterThanOrEqual(most - 1e-4 * answer.scale);
    expect(most).toBeLessThanOrEqual((answer.bound ?? Number.NaN) + 1e-7 * answer.scale);
    expect(answer.gap).toBeLessThanOrEqual(1e-4);
  });

  describe('with whole shifts', () => {
    /** A generated plant whose crews work by the shift, and its best whole plan at a fee. */
    const byTheShift = (seed: number) => {
      const { document, feed } = withResponse(seed, 1, {
        response: { elasticity: -1.6, at: 60 },
        committed: 0,
      });
      const crews = document.crews?.map((crew) => ({ ...crew, staffing: 'by the shift' as const }));
      const staffed = { ...document, ...(crews === undefined ? {} : { crews }) };
      const planAt = (fee: number) => {
        const feeds = staffed.feeds.map((own) => (own.id === feed ? { ...own, tippingFee: fee } : own));
        return planMonths(derivePlant({ ...staffed, feeds }), solver);
      };
      return { staffed, feed, planAt };
    };

    it.each([1, 4, 5])(
      'no whole plan on a grid earns more than the bound, nor than the best but for the gap: plant %i',
      (seed) => {
        const { staffed, feed, planAt } = byTheShift(seed);
        const request = { feeds: [{ feed, low: 20, high: 180 }], points: 9 };
        const answer = feesThatEarnMost(staffed, request, solver);
        if (answer.status !== 'complete') throw new Error(answer.status);
        expect(hasIntegers(formulate(derivePlant(staffed)).program)).toBe(true);
        expect(answer.isBoundInParts).toBe(true);
        const own = planAt(answer.feeds[0].fee);
        if (own.status !== 'optimal') throw new Error(own.status);
        expect(own.plan.statement.presentValue).toBeCloseTo(answer.value, 6);
        for (let fee = 20; fee <= 180; fee += 10) {
          const plan = planAt(fee);
          if (plan.status !== 'optimal') continue;
          const { presentValue } = plan.plan.statement;
          expect(presentValue, `fee ${fee}`).toBeLessThanOrEqual(
            (answer.bound ?? Number.NaN) + 1e-7 * answer.scale,
          );
          // Every second of these fees is a point of the curve.
          if ((fee - 20) % 20 === 0)
            expect(presentValue, `fee ${fee}`).toBeLessThanOrEqual(answer.value + 1e-6);
        }
      },
    );

    it('the curve holds no plan that earns more than the best', () => {
      for (const seed of [1, 4, 5]) {
        const { staffed, feed } = byTheShift(seed);
        const answer = feesThatEarnMost(
          staffed,
          { feeds: [{ feed, low: 20, high: 180 }], points: 12 },
          solver,
        );
        if (answer.status !== 'complete') throw new Error(answer.status);
        const values = answer.feeds[0].curve.flatMap(({ value }) => value ?? []);
        expect(Math.max(...values)).toBe(answer.value);
      }
    });
  });

  it('stopped before anything is proved, keeps the plan that it has, without a bound', () => {
    const { document, feed } = withResponse(1, 2, { response: { elasticity: -1.6, at: 60 }, committed: 0 });
    let solves = 0;
    const answer = feesThatEarnMost(document, { feeds: [{ feed, low: 20, high: 180 }] }, solver, {
      cancelled: () => solves > 0,
      onProgress: () => {
        solves += 1;
      },
    });
    if (answer.status !== 'partial') throw new Error(answer.status);
    expect(answer.bound).toBeUndefined();
    expect(answer.gap).toBeUndefined();
    expect(answer.value).toBe(answer.own);
    // Points that were not come to are left out, not told as fees without a plan.
    expect(answer.feeds[0].curve).toEqual([expect.objectContaining({ value: answer.value })]);
  });

  it('declines tonnes below a fee at which fresh plans take none, and takes some above it', () => {
    const { document, feed } = withResponse(1, 1, { response: undefined, committed: 0 });
    const answer = feesThatEarnMost(document, { feeds: [{ feed, low: 60, high: 60 }], points: 2 }, solver);
    if (answer.status !== 'complete') throw new Error(answer.status);
    const { decline } = answer.feeds[0];
    if (decline?.all === undefined) throw new Error('never declined');
    const taken = (fee: number) => {
      const found = feesThatEarnMost(document, { feeds: [{ feed, low: fee, high: fee }], points: 2 }, solver);
      return found.status === 'complete' ? found.feeds[0].tonnes : Number.NaN;
    };
    expect(taken(decline.all - 0.01)).toBeLessThan(1e-6);
    expect(taken(decline.all + 0.01)).toBeGreaterThan(1);
  });

  it('has problems where an end of the range is a fee that the scenario cannot have', () => {
    const { document, feed } = withResponse(1, 1, { response: { elasticity: -1.6, at: 60 }, committed: 0 });
    for (const range of [
      { low: 0, high: 60 },
      { low: 60, high: 1e13 },
    ]) {
      const answer = feesThatEarnMost(document, { feeds: [{ feed, ...range }], points: 2 }, solver);
      if (answer.status !== 'problems') throw new Error(answer.status);
      expect(answer.problems.map(({ pointer }) => pointer)).toEqual(['/feeds/0/tippingFee']);
    }
  });
});
