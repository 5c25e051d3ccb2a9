import { beforeAll, describe, expect, it } from 'vitest';
import { planMonths } from '../../../src/analysis/monthly-plan.js';
import { assessRisk } from '../../../src/analysis/risk/assess-risk.js';
import { evaluateDraws } from '../../../src/analysis/risk/evaluate-draws.js';
import { riskAnswer } from '../../../src/analysis/risk/risk.js';
import { riskModel } from '../../../src/analysis/risk/risk-model.js';
import { withFactors } from '../../../src/analysis/risk/uncertain-numbers.js';
import { sweep } from '../../../src/analysis/sweep/sweep.js';
import { readVariant } from '../../../src/analysis/variant/read-variant.js';
import { derivePlant } from '../../../src/plant/derive-plant.js';
import { riskDocument } from '../../../src/report/finance/risk-document.js';
import { loadSolver, type Solver } from '../../../src/solver/choose.js';
import { generateScenario } from '../../generate/plant.js';
import { tinyScenario } from '../../planning/tiny-plant.js';

const DRAWS = 60;

describe('a risk analysis', () => {
  let solver: Solver;
  beforeAll(async () => {
    solver = await loadSolver('highs');
  });

  const model = (seed: number) => {
    const document = generateScenario(seed, { months: 2, features: { uncertainty: true, response: false } });
    const found = riskModel(document, { seed: 7, draws: DRAWS }, solver);
    if (!found.ok) throw new Error(found.reason);
    return found.model;
  };

  it('values each draw as a fresh plan of the drawn scenario does, and counts those that are none', () => {
    for (const seed of [1, 2, 4]) {
      const made = model(seed);
      const evaluated = made.paths.flatMap((path) => evaluateDraws(made, path, solver));
      for (const { draw, outcome } of evaluated.filter((_, i) => i % 7 === 0)) {
        const variant = readVariant(withFactors(made.base, made.targets, made.factors[draw]));
        if (!variant.ok) {
          expect(outcome.kind, `seed ${seed}, draw ${draw}`).toBe('invalid');
          continue;
        }
        const fresh = planMonths(variant.plant, solver);
        if (fresh.status !== 'optimal' || outcome.kind !== 'planned') {
          expect([outcome.kind, fresh.status], `seed ${seed}`).toEqual(['infeasible', 'infeasible']);
          continue;
        }
        const { presentValue, scale } = fresh.plan.statement;
        expect(Math.abs(outcome.value - presentValue) / scale, `seed ${seed}, draw ${draw}`).toBeLessThan(
          1e-9,
        );
        if (outcome.kept !== undefined)
          expect(outcome.kept).toBeLessThanOrEqual(outcome.value + 1e-6 * scale);
      }
      const answer = riskAnswer(made, evaluated, { seed: 7 });
      const { infeasible, invalid, uncertified } = answer.withoutPlan;
      expect((answer.distribution?.count ?? 0) + infeasible + invalid + uncertified).toBe(DRAWS);
    }
  });

  it('gives the same digits whatever was solved before a path, and in whatever order the paths are walked', () => {
    const made = model(4);
    const forth = made.paths.flatMap((path) => evaluateDraws(made, path, solver));
    const back = [...made.paths].reverse().flatMap((path) => evaluateDraws(made, path, solver));
    const answers = [forth, back].map((evaluated) => riskAnswer(made, evaluated, { seed: 7, level: 0 }));
    expect(answers[1]).toEqual(answers[0]);
  });

  it('stopped, keeps what is done and says that it is a part', () => {
    const made = model(2);
    let asked = 0;
    const evaluated = evaluateDraws(made, made.paths[0], solver, { cancelled: () => ++asked > 30 });
    const answer = riskAnswer(made, evaluated, { seed: 7 });
    expect(answer.status).toBe('partial');
    expect(answer.evaluated).toBeGreaterThan(0);
    expect(answer.evaluated).toBeLessThan(DRAWS);
  });

  it('explains infeasible draws by the limits in the way', () => {
    const drawn = generateScenario(2, { months: 1, features: { response: false, otherBases: false } });
    const feeds = drawn.feeds.map((feed, i) =>
      i === 0 ? { ...feed, committed: 100, available: 1e6 } : feed,
    );
    const target = `/feeds/${feeds[0].id}/committed`;
    const document = { ...drawn, feeds };
    const request = { parameter: { pointers: [target], kind: 'factor' }, from: 0, to: 5000 } as const;
    const swept = sweep(document, request, solver);
    const most = swept.status === 'complete' ? swept.points[swept.points.length - 1].at : Number.NaN;
    const distribution = { kind: 'uniform', low: 0, high: 1.8 * most } as const;
    const uncertainty = [{ target, distribution }];
    const found = riskModel({ ...document, uncertainty }, { seed: 1, draws: 20 }, solver);
    if (!found.ok) throw new Error(found.reason);
    const { model: made } = found;
    const evaluated = made.paths.flatMap((path) => evaluateDraws(made, path, solver));
    const answer = riskAnswer(made, evaluated, { seed: 1 });
    const beyond = made.factors.filter(([[factor]]) => factor > most).length;
    expect(beyond).toBeGreaterThan(0);
    expect(answer.withoutPlan.infeasible).toBe(beyond);
    expect(answer.withoutPlan.limits[0].draws).toBe(beyond);
  });

  // The kiln must get 30 t of shred, so 37.5 t of tires must be shredded in 40 hours: below 0.9375 t/h that cannot be.
  it('explains draws that a yield or a throughput makes infeasible, in words and by their number', () => {
    const [shredding] = tinyScenario().steps;
    const kiln = { id: 'firm', buyer: 'Kiln', materials: ['shred'], from: '2027-02-01', to: '2027-02-28' };
    const document = tinyScenario({
      steps: [shredding],
      contracts: [{ ...kiln, price: 30, monthly: { min: 30 } }],
      uncertainty: [
        {
          target: '/steps/shredding/throughput',
          distribution: { kind: 'uniform', low: 0.875, high: 1.125 },
        },
      ],
    });
    const answer = assessRisk(document, { seed: 2, draws: 80 }, solver);
    if (answer.status !== 'complete') throw new Error(answer.status);
    const { infeasible, limits } = answer.withoutPlan;
    // A quarter of the factors lies below; 80 draws, binomial: four standard deviations are 15.5.
    expect(infeasible).toBeGreaterThan(4);
    expect(infeasible).toBeLessThan(36);
    expect(limits.map(({ draws }) => draws)).toEqual([infeasible, infeasible]);
    const said = riskDocument(derivePlant(document), answer).withoutPlan.limits.map(({ limit }) => limit);
    expect(said.join('; ')).toContain('monthly minimum of firm in 2027-02');
    expect(said.join('; ')).toContain('hours of shredder, day in 2027-02');
  });
});
