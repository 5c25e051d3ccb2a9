import { beforeAll, describe, expect, it } from 'vitest';
import type { ConflictAnswer } from '../../src/analysis/conflict/conflict.js';
import { explainConflict } from '../../src/analysis/conflict/explain-conflict.js';
import { DEFAULT_REPAIR_WEIGHTS } from '../../src/analysis/conflict/repair-weights.js';
import { explainPlan } from '../../src/analysis/explain/explain-plan.js';
import { freeFormulation } from '../../src/analysis/explain/free-formulation.js';
import { planMonths } from '../../src/analysis/monthly-plan.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import {
  conflictDocument,
  type ExplainedDocument,
  explainedDocument,
} from '../../src/report/explain/explain-document.js';
import { printExplanation } from '../../src/report/explain/explain-report.js';
import { explanationJsonSchema, explanationSchema } from '../../src/report/explain/explain-schema.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { loadSolver, type Solver } from '../../src/solver/choose.js';
import { CONFLICTS, generateInfeasibleScenario } from '../generate/infeasible.js';
import { generateScenario } from '../generate/plant.js';

const SEEDS = Array.from({ length: 20 }, (_, index) => index + 1);

let solver: Solver;
beforeAll(async () => {
  solver = await loadSolver();
});

function documentOf(scenario: Scenario, staffedWindows = 0): ExplainedDocument {
  const plant = derivePlant(scenario);
  const answer = planMonths(plant, solver);
  if (!('solved' in answer)) throw new Error(answer.status);
  const whole = answer.whole === undefined ? {} : { free: freeFormulation(answer.solved), staffedWindows };
  const explanation = explainPlan(answer, solver, whole);
  if (explanation === undefined) throw new Error('no explanation');
  return explainedDocument(plant, answer, explanation);
}

describe('the document of an explanation', () => {
  it('fits its schema, also after a way through JSON', () => {
    for (const seed of SEEDS) {
      const document = documentOf(generateScenario(seed));
      const parsed = explanationSchema.safeParse(JSON.parse(JSON.stringify(document)));
      expect(parsed.error?.issues ?? [], `seed ${seed}`).toEqual([]);
      expect(parsed.data, `seed ${seed}`).toEqual(document);
    }
  });

  it('says three to seven sentences, none with a figure that is none', () => {
    for (const seed of SEEDS) {
      const { sentences } = documentOf(generateScenario(seed));
      expect(sentences.length, `seed ${seed}`).toBeGreaterThanOrEqual(3);
      expect(sentences.length, `seed ${seed}`).toBeLessThanOrEqual(7);
      expect(sentences.join(' '), `seed ${seed}`).not.toMatch(/NaN|undefined|Infinity|\[object/);
    }
  });

  it('names each rent by limit, month and window, with its unit', () => {
    const { rents, units } = documentOf(generateScenario(4));
    const [hours] = rents.filter(({ limit }) => limit.kind === 'machineHours');
    expect(hours).toMatchObject({
      unit: `${units.currency}/machine-hour`,
      month: expect.stringMatching(/^\d{4}-\d\d$/),
    });
    expect(hours?.window).toBeTypeOf('string');
    for (const { limit, window } of rents) expect(window === undefined).toBe(!limit.kind.endsWith('Hours'));
  });

  it('with whole shifts says so, and what a shift more or less is worth', () => {
    for (const seed of [2, 4, 6]) {
      const document = documentOf(generateScenario(seed, { integers: true, months: 1 }), 2);
      expect(explanationSchema.safeParse(document).error?.issues ?? []).toEqual([]);
      if (document.staffed !== 'whole') continue;
      expect(document.sentences.join(' ')).toContain('staffing of the plan');
      for (const { oneMore, oneLess, within } of document.staffing?.asked ?? []) {
        // The plan is the best to its gap: another number of shifts brings no more.
        expect(oneMore ?? 0).toBeLessThanOrEqual(within + 1e-6);
        expect(-(oneLess ?? 0)).toBeLessThanOrEqual(within + 1e-6);
      }
    }
  });

  it('without a plan says what cannot hold, what gives, and at which weights', () => {
    for (const [index, kind] of CONFLICTS.entries()) {
      const plant = derivePlant(generateInfeasibleScenario(index + 1, kind).scenario);
      const document = conflictDocument(plant, explainConflict(plant, solver));
      expect(explanationSchema.safeParse(document).error?.issues ?? [], kind).toEqual([]);
      expect(document.conflict?.length, kind).toBeGreaterThan(0);
      expect(document.repair?.plan?.accepted, kind).toBe(true);
      expect(document.sentences.join(' '), kind).toContain('at a weight by unit of');
      expect(printExplanation(document), kind).not.toMatch(/NaN|undefined/);
    }
  });

  it('tells a promise that is broken in every month once, by its worst month', () => {
    const base = generateScenario(3, { months: 12 });
    const [material] = base.outlets?.map((outlet) => outlet.material) ?? [];
    const contracts = [
      {
        id: 'too-much',
        buyer: 'Buyer of too much',
        materials: [material],
        from: `${base.horizon.firstMonth}-01`,
        to: '2099-12-31',
        price: 1,
        monthly: { min: 1e6 },
      },
    ];
    const plant = derivePlant({ ...base, contracts });
    const { sentences } = conflictDocument(plant, explainConflict(plant, solver));
    expect(sentences.length).toBeLessThanOrEqual(7);
    expect(sentences[0]).toContain('so in 12 of 12 months');
    expect(sentences.join(' ')).toMatch(/too-much in 12 months, the most in \d{4}-\d{2}, from/);
  });

  it('takes from what the scenario says weighs least', () => {
    const { scenario } = generateInfeasibleScenario(1, 'two hard minimums above the supply together');
    const weights = { feedAvailable: 0.01, contractMinimum: 50 };
    const plant = derivePlant({ ...scenario, repair: { weights } });
    const { repair } = explainConflict(plant, solver);
    expect(repair?.weights).toEqual({ ...DEFAULT_REPAIR_WEIGHTS, ...weights });
    const kindsOf = (answer: ConflictAnswer) => answer.repair?.gives.map(({ limit }) => limit.kind);
    expect(kindsOf(explainConflict(derivePlant(scenario), solver))).toContain('contractMinimum');
    expect(kindsOf(explainConflict(plant, solver))).toContain('feedAvailable');
    expect(kindsOf(explainConflict(plant, solver))).not.toContain('contractMinimum');
  });

  it('has a JSON Schema', () => {
    expect(explanationJsonSchema()).toMatchObject({ title: 'cutpoint-explanation/1' });
  });
});
