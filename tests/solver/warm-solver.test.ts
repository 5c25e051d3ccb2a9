import { beforeAll, describe, expect, it } from 'vitest';
import { formulate, type PlanProgram } from '../../src/planning/formulate.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import type { Solver } from '../../src/solver/choose.js';
import { openWarm } from '../../src/solver/warm-solver.js';
import { generateScenario } from '../generate/plant.js';
import { seededRandom } from '../generate/random.js';
import { solverFor } from './solver-for.js';

let solver: Solver;
beforeAll(async () => {
  solver = await solverFor('highs');
});

function programOf(seed: number): PlanProgram {
  return formulate(derivePlant(generateScenario(seed))).program;
}

/** The same program with a tenth of its prices, finite bounds and coefficients moved by up to 20 %. */
function variantOf(program: PlanProgram, seed: number): PlanProgram {
  const random = seededRandom(seed, 'variant');
  const moved = (values: Float64Array) =>
    values.map((value) =>
      random.chance(0.1) && Number.isFinite(value) ? value * random.real(0.8, 1.2, 4) : value,
    );
  const upper = moved(program.columnUpper).map((bound, j) => Math.max(bound, program.columnLower[j]));
  return {
    ...program,
    cost: moved(program.cost),
    columnUpper: upper,
    matrix: { ...program.matrix, values: moved(program.matrix.values) },
  };
}

describe('a warm solver', () => {
  it('answers each variant as a cold solve of it does', () => {
    let solved = 0;
    for (let seed = 1; seed <= 15; seed++) {
      const program = programOf(seed);
      const warm = openWarm(solver);
      for (let i = 0; i < 6; i++) {
        const variant = i === 0 ? program : variantOf(program, 100 * seed + i);
        const [first, second] = [warm.solve(variant), solver.solve(variant)];
        expect(first.kind, `seed ${seed}, variant ${i}`).toBe(second.kind);
        if (first.kind !== 'solved' || second.kind !== 'solved') continue;
        const { certificate } = first;
        expect(certificate.accepted).toBe(true);
        const difference = Math.abs(certificate.objective - second.certificate.objective);
        expect(difference, `seed ${seed}, variant ${i}`).toBeLessThanOrEqual(1e-7 * certificate.scale);
        solved += 1;
      }
      warm.close();
    }
    expect(solved).toBeGreaterThan(60);
  });

  it('counts its solves, and goes on after a program without a plan', () => {
    const program = programOf(4);
    const warm = openWarm(solver);
    warm.solve(program);
    const balance = program.rowKeys.findIndex((key) => key.kind === 'balance');
    const rowLower = program.rowLower.slice();
    const rowUpper = program.rowUpper.slice();
    // Mass that must leave although none came in.
    rowLower[balance] = -1e9;
    rowUpper[balance] = -1e9;
    expect(warm.solve({ ...program, rowLower, rowUpper }).kind).toBe('infeasible');
    expect(warm.solve(program).kind).toBe('solved');
    // One each, and the infeasible one asked again from cold.
    expect(warm.solves).toBe(4);
    warm.close();
  });

  it('opens anew for a program of another shape', () => {
    const warm = openWarm(solver);
    const [first, second] = [programOf(1), programOf(2)];
    for (const program of [first, second, first]) {
      const answer = warm.solve(program);
      const cold = solver.solve(program);
      if (answer.kind !== 'solved' || cold.kind !== 'solved')
        throw new Error(`${answer.kind} and ${cold.kind}`);
      expect(answer.certificate.objective).toBeCloseTo(cold.certificate.objective, 4);
    }
    warm.close();
  });
});
