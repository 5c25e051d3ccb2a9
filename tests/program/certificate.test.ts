import { describe, expect, it } from 'vitest';
import { planMonths } from '../../src/analysis/monthly-plan.js';
import type { PlannedAnswer } from '../../src/analysis/plan-answer.js';
import type { ColumnKey, RowKey } from '../../src/planning/keys.js';
import { certifyPlan } from '../../src/planning/read/read-plan.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import { ProgramBuilder } from '../../src/program/builder.js';
import { certify } from '../../src/program/certificate.js';
import { columnCount } from '../../src/program/linear-program.js';
import { generateScenario } from '../generate/plant.js';
import { solverFor } from '../solver/solver-for.js';

async function planned(seed: number): Promise<PlannedAnswer['solved']> {
  const answer = planMonths(derivePlant(generateScenario(seed)), await solverFor('highs'));
  if (!('plan' in answer)) throw new Error('no plan');
  return answer.solved;
}

function columnsStrictlyBetween(
  { formulation, primal }: PlannedAnswer['solved'],
  kind: ColumnKey['kind'],
): number[] {
  const { program } = formulation;
  return Array.from(primal.keys()).filter((j) => {
    if (program.columnKeys[j].kind !== kind) return false;
    const room = 0.01 * (1 + Math.abs(primal[j]));
    return primal[j] - program.columnLower[j] > room && program.columnUpper[j] - primal[j] > room;
  });
}

describe('a plan is accepted as it is and refused when 0.1 % of it is tampered with', () => {
  it('a flow strictly between its bounds', async () => {
    let tampered = 0;
    for (let seed = 1; seed <= 20; seed++) {
      const solved = await planned(seed);
      expect(certifyPlan(solved.formulation, solved).accepted).toBe(true);
      for (const column of columnsStrictlyBetween(solved, 'run').slice(0, 3)) {
        const primal = solved.primal.slice();
        primal[column] *= 1.001;
        const { accepted, failures, primal: worst } = certifyPlan(solved.formulation, { ...solved, primal });
        expect(accepted).toBe(false);
        expect(failures).toContain('primal feasibility');
        expect(worst.row).toBeDefined();
        tampered += 1;
      }
    }
    expect(tampered).toBeGreaterThan(30);
  });

  it('the dual of a row with a basic column', async () => {
    let tampered = 0;
    for (let seed = 1; seed <= 20; seed++) {
      const solved = await planned(seed);
      const { program } = solved.formulation;
      for (const column of columnsStrictlyBetween(solved, 'run').slice(0, 3)) {
        const row = program.matrix.rows[program.matrix.starts[column]];
        if (solved.rowDual[row] === 0) continue;
        const rowDual = solved.rowDual.slice();
        rowDual[row] *= 1.001;
        expect(certifyPlan(solved.formulation, { ...solved, rowDual }).accepted).toBe(false);
        tampered += 1;
      }
    }
    expect(tampered).toBeGreaterThan(30);
  });

  it('the price of a tier that is partly used, though not of one that is unused', async () => {
    let partly = 0;
    let unused = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const solved = await planned(seed);
      const { program } = solved.formulation;
      const withCost = (column: number, factor: number) => {
        const cost = program.cost.slice();
        cost[column] *= factor;
        return certifyPlan({ ...solved.formulation, program: { ...program, cost } }, solved).accepted;
      };
      for (const column of columnsStrictlyBetween(solved, 'sell')) {
        if (Math.abs(program.cost[column]) < 1) continue;
        expect(withCost(column, 1.001)).toBe(false);
        partly += 1;
      }
      for (let column = 0; column < columnCount(program); column++) {
        const idle = program.columnKeys[column].kind === 'sell' && solved.primal[column] === 0;
        if (!idle || program.columnUpper[column] === 0 || program.cost[column] <= 0) continue;
        expect(withCost(column, 0.999)).toBe(true);
        unused += 1;
      }
    }
    expect(partly).toBeGreaterThan(15);
    expect(unused).toBeGreaterThan(15);
  });
});

describe('each condition is judged by itself', () => {
  // maximize 3x + 2y, x + y ≤ 4, x ≤ 3: x = 3, y = 1, 11; duals 2 and (as a bound) 1.
  const builder = new ProgramBuilder<string, string>('maximize');
  const x = builder.column('x', { upper: 3, cost: 3 });
  const y = builder.column('y', { cost: 2 });
  const room = builder.row('room', { upper: 4 });
  builder.add(room, x, 1);
  builder.add(room, y, 1);
  const program = builder.build();
  const optimum = { primal: Float64Array.of(3, 1), rowDual: Float64Array.of(2) };

  it('the optimum is proved', () => {
    const certificate = certify(program, optimum);
    expect(certificate).toMatchObject({ accepted: true, objective: 11, bound: 11, gap: 0, failures: [] });
  });

  it('a point that is feasible but not best leaves a gap', () => {
    const certificate = certify(program, { ...optimum, primal: Float64Array.of(3, 0.5) });
    expect(certificate.failures).toEqual(['complementary slackness', 'duality gap']);
    expect(certificate.complementarity?.row).toBe('room');
  });

  it('a bound is never worse than the truth, whatever the duals', () => {
    for (const dual of [0, 1, 2, 3, 5]) {
      const { bound } = certify(program, { ...optimum, rowDual: Float64Array.of(dual) });
      // With a dual below 2, y earns without end and nothing is proved: that is a dual violation, not a bound.
      if (dual >= 2) expect(bound).toBeGreaterThanOrEqual(11);
    }
  });

  it('a price that leans on a missing bound is a dual violation, with its column', () => {
    const certificate = certify(program, { ...optimum, rowDual: Float64Array.of(1) });
    expect(certificate.failures).toContain('dual feasibility');
    expect(certificate.dual?.column).toBe('y');
  });

  it('a point that is not a number is refused', () => {
    expect(certify(program, { ...optimum, primal: Float64Array.of(Number.NaN, 1) }).accepted).toBe(false);
  });

  it('a fraction is refused where a whole number is asked for', () => {
    const whole = { ...program, integer: Uint8Array.of(1, 0) };
    const certificate = certify(
      whole,
      { primal: Float64Array.of(2.5, 1.5), rowDual: optimum.rowDual },
      { gap: 1 },
    );
    expect(certificate.failures).toEqual(['integrality']);
    expect(certificate.integrality.column).toBe('x');
  });
});

it('a minimization is proved by the same conditions', () => {
  // minimize 2x + 3y, x + y ≥ 4, y ≥ 1: x = 3, y = 1, 9; dual 2.
  const builder = new ProgramBuilder<string, string>('minimize');
  const x = builder.column('x', { cost: 2 });
  const y = builder.column('y', { lower: 1, cost: 3 });
  const need = builder.row('need', { lower: 4 });
  builder.add(need, x, 1);
  builder.add(need, y, 1);
  const program = builder.build();
  const proof = certify(program, { primal: Float64Array.of(3, 1), rowDual: Float64Array.of(2) });
  expect(proof).toMatchObject({ accepted: true, objective: 9, bound: 9 });
  const wrongSign = certify(program, { primal: Float64Array.of(3, 1), rowDual: Float64Array.of(-2) });
  expect(wrongSign.failures).toContain('dual feasibility');
});

it('tells a row of the plant by its key', async () => {
  const solved = await planned(3);
  const primal = solved.primal.slice();
  primal.fill(0);
  const certificate = certifyPlan(solved.formulation, { ...solved, primal });
  const worst: RowKey | ColumnKey | undefined = certificate.primal.row ?? certificate.primal.column;
  expect(certificate.accepted).toBe(false);
  expect(worst?.kind ?? 'none').not.toBe('none');
});
