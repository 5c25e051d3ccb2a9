import { beforeAll, describe, expect, it } from 'vitest';
import type { ConflictAnswer } from '../../src/analysis/conflict/conflict.js';
import { explainConflict } from '../../src/analysis/conflict/explain-conflict.js';
import { conflictMembers, type Member } from '../../src/analysis/conflict/members.js';
import { DEFAULT_REPAIR_WEIGHTS } from '../../src/analysis/conflict/repair-weights.js';
import type { LimitKey } from '../../src/analysis/limits/plan-limit.js';
import { withoutCalendarBounds } from '../../src/analysis/limits/without-calendar-bounds.js';
import { planMonths } from '../../src/analysis/monthly-plan.js';
import { formulate } from '../../src/planning/formulate.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import type { Plant } from '../../src/plant/plant.js';
import { givenWay } from '../../src/program/elastic.js';
import { type LinearProgram, relaxed } from '../../src/program/linear-program.js';
import { loadSolver, type Solver } from '../../src/solver/choose.js';
import { generateInfeasibleScenario } from '../generate/infeasible.js';
import { generateScenario } from '../generate/plant.js';

const SEEDS = Array.from({ length: 200 }, (_, index) => index + 1);

interface Case {
  readonly seed: number;
  readonly kind: string;
  readonly plant: Plant;
  readonly answer: ConflictAnswer;
}

let solver: Solver;
let cases: readonly Case[];
beforeAll(async () => {
  solver = await loadSolver();
  cases = SEEDS.map((seed) => {
    const { scenario, conflict: kind } = generateInfeasibleScenario(seed);
    const plant = derivePlant(scenario);
    return { seed, kind, plant, answer: explainConflict(plant, solver) };
  });
}, 120_000);

describe('conflicts of generated plants without a plan', () => {
  it('the conflict set cannot hold, and without any one of its members it can', () => {
    for (const { seed, kind, plant, answer } of cases) {
      const where = `seed ${seed}: ${kind}`;
      const own = answer.conflict ?? [];
      expect(own.length, where).toBeGreaterThan(0);
      expect(
        holds(
          plant,
          own.map(({ limit }) => limit),
        ),
        where,
      ).toBe(false);
      for (const left of own) {
        const others = own.filter((member) => member !== left).map(({ limit }) => limit);
        expect(holds(plant, others), `${where} without ${JSON.stringify(left.limit)}`).toBe(true);
      }
    }
  });

  it('the repaired plan is certified, and its weight is that of what gives', () => {
    for (const { seed, kind, answer } of cases) {
      const where = `seed ${seed}: ${kind}`;
      const { repair } = answer;
      expect(repair?.planned?.plan.certificate.accepted, where).toBe(true);
      expect(repair?.gives.length, where).toBeGreaterThan(0);
      const weight = repair?.gives.reduce(
        (sum, { limit, by }) => sum + by * DEFAULT_REPAIR_WEIGHTS[limit.kind],
        0,
      );
      expect(repair?.weight, where).toBeCloseTo(weight ?? Number.NaN, 6);
    }
  });

  it('nothing gives way by a hair that none needs', () => {
    for (const { seed, kind, answer } of cases) {
      for (const { limit, by, to } of answer.repair?.gives ?? []) {
        const where = `seed ${seed}: ${kind} ${JSON.stringify({ limit, by, to })}`;
        expect(by, where).toBeGreaterThan(1e-4);
      }
    }
  });

  it('a hundredth less given leaves no plan', () => {
    for (const { seed, kind, plant, answer } of cases) {
      const formulation = withoutCalendarBounds(formulate(plant));
      const given = new Map(answer.repair?.gives.map(({ limit, by }) => [JSON.stringify(limit), by]));
      const members = conflictMembers(formulation).filter(({ bounds }) => bounds.length === 1);
      const amounts = members.map(
        ({ limit, each }) => (0.99 * (given.get(JSON.stringify(limit)) ?? 0)) / each,
      );
      const giving = members.flatMap(({ bounds }) => bounds);
      const twoSided = answer.repair?.gives.some(({ limit }) => limit.kind === 'contractCall');
      if (twoSided) continue;
      const program = givenWay(relaxed(formulation.program), giving, amounts);
      expect(solver.solve(program).kind, `seed ${seed}: ${kind}`).toBe('infeasible');
    }
  });

  it('every conflict has a member that gives in the repair', () => {
    for (const { seed, kind, answer } of cases) {
      const names = new Set(answer.conflict?.map(({ limit }) => JSON.stringify(limit)));
      const given = answer.repair?.gives.filter(({ limit }) => names.has(JSON.stringify(limit))) ?? [];
      expect(given.length, `seed ${seed}: ${kind}`).toBeGreaterThan(0);
    }
  });

  it('what is called obvious is a conflict: no plant with a plan has any', () => {
    for (const seed of SEEDS) {
      expect(explainConflict(derivePlant(generateScenario(seed)), solver)).toMatchObject({
        conflict: [],
        obvious: [],
      });
    }
  });

  it('both engines find a conflict that cannot hold and without any one member can', async () => {
    for (const engine of ['highs', 'javascript-lp-solver'] as const) {
      const alone = await loadSolver(engine);
      for (const { seed, kind, plant } of cases.slice(0, 25)) {
        const own = explainConflict(plant, alone).conflict?.map(({ limit }) => limit) ?? [];
        expect(holds(plant, own), `${engine}, seed ${seed}: ${kind}`).toBe(false);
        for (const left of own) {
          expect(
            holds(
              plant,
              own.filter((limit) => limit !== left),
            ),
            `${engine}, seed ${seed}: ${kind}`,
          ).toBe(true);
        }
      }
    }
  });

  it('a plan is refused in the first place', () => {
    for (const { seed, plant } of cases.slice(0, 40)) {
      expect(planMonths(plant, solver).status, `seed ${seed}`).toBe('infeasible');
    }
  });
});

/** Whether limits can all hold when every other one is gone: a plain question to the engine, by removed bounds. */
function holds(plant: Plant, kept: readonly LimitKey[]): boolean {
  const formulation = withoutCalendarBounds(formulate(plant));
  const names = new Set(kept.map((key) => JSON.stringify(key)));
  const gone = conflictMembers(formulation).filter(({ limit }) => !names.has(JSON.stringify(limit)));
  const answer = solver.solve(withoutBounds(relaxed(formulation.program), gone));
  if (answer.kind !== 'solved' && answer.kind !== 'infeasible') throw new Error(answer.kind);
  return answer.kind === 'solved';
}

function withoutBounds(program: LinearProgram, gone: readonly Member[]): LinearProgram {
  const sides = {
    row: { lower: program.rowLower.slice(), upper: program.rowUpper.slice() },
    column: { lower: program.columnLower.slice(), upper: program.columnUpper.slice() },
  };
  for (const { kind, index, bound } of gone.flatMap(({ bounds }) => bounds)) {
    // Masses and hours stay at 0 or above whatever is promised.
    const lower = kind === 'column' ? 0 : Number.NEGATIVE_INFINITY;
    sides[kind][bound][index] = bound === 'lower' ? lower : Number.POSITIVE_INFINITY;
  }
  return {
    ...program,
    cost: new Float64Array(program.cost.length),
    rowLower: sides.row.lower,
    rowUpper: sides.row.upper,
    columnLower: sides.column.lower,
    columnUpper: sides.column.upper,
  };
}
