import { readFileSync } from 'node:fs';
import { beforeAll, expect, it } from 'vitest';
import { briefOf, explainBriefly } from '../../src/analysis/explain/brief-explanation.js';
import { explainPlan } from '../../src/analysis/explain/explain-plan.js';
import { freeFormulation } from '../../src/analysis/explain/free-formulation.js';
import { planMonths } from '../../src/analysis/monthly-plan.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import { explanationSentences } from '../../src/report/explain/sentences.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { loadSolver, type Solver } from '../../src/solver/choose.js';
import { generateScenario } from '../generate/plant.js';

const SHIPPED = ['one-month', 'short-tons', 'twelve-months'];
const SEEDS = Array.from({ length: 60 }, (_, index) => index + 1);

let solver: Solver;
beforeAll(async () => {
  solver = await loadSolver();
});

/** The sentences by the brief way and by the full one. */
function bothWays(scenario: Scenario): { brief: string[]; full: string[] } {
  const plant = derivePlant(scenario);
  const answer = planMonths(plant, solver, { gap: 1e-3 });
  if (!('solved' in answer)) throw new Error(answer.status);
  const whole = answer.whole === undefined ? {} : { free: freeFormulation(answer.solved) };
  const brief = explainBriefly(answer, solver);
  const full = explainPlan(answer, solver, whole);
  if (brief === undefined || full === undefined) throw new Error('no explanation');
  return {
    brief: explanationSentences(plant, brief),
    full: explanationSentences(plant, briefOf(plant, full)),
  };
}

it.each(SHIPPED)('the brief explanation of %s says what the full one says', (name) => {
  const path = new URL(`../../scenarios/${name}.json`, import.meta.url);
  const { brief, full } = bothWays(JSON.parse(readFileSync(path, 'utf8')));
  expect(brief).toEqual(full);
  expect(brief.length).toBeGreaterThanOrEqual(3);
});

it('so it does for generated plants', () => {
  for (const seed of SEEDS) {
    const options = { months: 1 + (seed % 3), degenerate: seed % 3 === 0 };
    const { brief, full } = bothWays(generateScenario(seed, options));
    expect(brief, `seed ${seed}`).toEqual(full);
  }
});
