import { beforeAll, describe, expect, it } from 'vitest';
import { certify } from '../../src/program/certificate.js';
import { objectiveAt } from '../../src/program/linear-program.js';
import { createSolver } from '../../src/solver/choose.js';
import { loadHighs } from '../../src/solver/highs.js';
import { loadJavascriptLpSolver } from '../../src/solver/javascript-lp-solver.js';
import { type Engine, solveOnce } from '../../src/solver/port.js';
import { factoryPlanning1, factoryPlanning2 } from './williams/factory-planning.js';
import { foodManufacture1, foodManufacture2 } from './williams/food-manufacture.js';

/** Williams, Model Building in Mathematical Programming; the optima read in public test files of several libraries. */
describe('problems of Williams', () => {
  let highs: Engine;
  let small: Engine;
  beforeAll(async () => {
    [highs, small] = await Promise.all([loadHighs(), loadJavascriptLpSolver()]);
  });

  it.each([
    ['food manufacture 1', foodManufacture1(), 107842.592593],
    ['factory planning 1', factoryPlanning1(), 93715.178571],
  ])('%s: both engines find the published optimum, certified', (_, program, published) => {
    for (const engine of [highs, small]) {
      const { primal, dual } = solveOnce(engine, program);
      expect(objectiveAt(program, primal as Float64Array)).toBeCloseTo(published, 5);
      expect(certify(program, { primal: primal as Float64Array, rowDual: dual?.rowDual }).failures).toEqual(
        [],
      );
    }
  });

  it.each([
    ['food manufacture 2', foodManufacture2(), 100278.7, 1],
    ['factory planning 2', factoryPlanning2(), 108855, 1],
  ])(
    '%s: the published optimum with whole numbers, its gap proved from the relaxation',
    (_, program, published, digits) => {
      const answer = createSolver([highs]).solve(program, { gap: 1e-7 });
      expect(answer.kind).toBe('solved');
      if (answer.kind !== 'solved') return;
      expect(answer.certificate.objective).toBeCloseTo(published, digits);
      expect(answer.certificate.bound).toBeGreaterThanOrEqual(published);
      expect(answer.answer.bound).toBeCloseTo(published, digits);
    },
  );
});
