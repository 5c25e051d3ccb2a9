import { beforeAll, describe, expect, it } from 'vitest';
import { planMonths } from '../../src/analysis/monthly-plan.js';
import { readPlant } from '../../src/plant/read-plant.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { loadSolver, type Solver } from '../../src/solver/choose.js';
import { CONFLICTS, generateInfeasibleScenario } from './infeasible.js';
import { generateScenario } from './plant.js';

const SEEDS = Array.from({ length: 25 }, (_, index) => index + 1);

let solver: Solver;

beforeAll(async () => {
  solver = await loadSolver();
});

describe('generated plants', () => {
  it('have a plan, which stops on several rungs of the ladder', () => {
    for (const seed of SEEDS) {
      const answer = answerTo(generateScenario(seed));
      expect(answer.status, `seed ${seed}`).toBe('optimal');
      if (answer.status !== 'optimal') continue;
      const sales = answer.plan.months.flatMap((month) => month.sales).filter(({ mass }) => mass > 1e-6);
      expect(new Set(sales.map(({ material }) => material)).size, `seed ${seed}`).toBeGreaterThan(2);
    }
  });

  it('have a plan or none where they are tight', () => {
    const statuses = SEEDS.map((seed) => answerTo(generateScenario(seed, { tight: true })).status);
    expect(new Set(statuses)).toEqual(new Set(['optimal', 'infeasible']));
  });
});

describe('plants with a planted conflict', () => {
  it.each(CONFLICTS)('have no plan: %s', (conflict) => {
    for (const seed of [1, 2, 3]) {
      const { scenario, planted } = generateInfeasibleScenario(seed, conflict);
      expect(planted.length).toBeGreaterThan(0);
      expect(answerTo(scenario).status, `seed ${seed}`).toBe('infeasible');
    }
  });
});

function answerTo(scenario: Scenario) {
  const reading = readPlant(JSON.stringify(scenario));
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return planMonths(reading.plant, solver);
}
