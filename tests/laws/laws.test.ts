import { beforeAll, describe, expect, it } from 'vitest';
import { planMonths } from '../../src/analysis/monthly-plan.js';
import type { PlannedAnswer } from '../../src/analysis/plan-answer.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import type { EngineChoice, Solver } from '../../src/solver/choose.js';
import { generateScenario } from '../generate/plant.js';
import { inOtherMassUnit } from '../generate/plant-in-other-unit.js';
import {
  withListsShuffled,
  withMoneyScaled,
  withMoreCapacity,
  withUnusedOption,
} from '../generate/transforms.js';
import { solverFor } from '../solver/solver-for.js';

/** Laws that hold for any plant, over generated ones; a failure prints its seed. */
const PLANTS = 60;
const TOLERANCE = 1e-6;

const solvers = new Map<EngineChoice, Solver>();

beforeAll(async () => {
  for (const choice of ['auto', 'highs', 'javascript-lp-solver'] as const)
    solvers.set(choice, await solverFor(choice));
});

function planned(scenario: Scenario, choice: EngineChoice = 'highs'): PlannedAnswer {
  const answer = planMonths(derivePlant(scenario), solvers.get(choice) as Solver);
  if (!('plan' in answer)) throw new Error(`no plan: ${answer.status}`);
  return answer;
}

/** Every second plant is degenerate on purpose. */
function plants(): { seed: number; scenario: Scenario; answer: PlannedAnswer }[] {
  return Array.from({ length: PLANTS }, (_, i) => {
    const seed = 1000 + i;
    const scenario = generateScenario(seed, { degenerate: i % 2 === 1 });
    return { seed, scenario, answer: planned(scenario) };
  });
}

const generated: ReturnType<typeof plants> = [];
beforeAll(() => {
  generated.push(...plants());
});

/** The first plant that breaks the law, with its seed; undefined when none does. */
function firstBreach(difference: (each: (typeof generated)[number]) => number): string | undefined {
  for (const each of generated) {
    const by = difference(each) / each.answer.plan.statement.scale;
    if (!(by <= TOLERANCE)) return `seed ${each.seed}: off by ${by} of the scale`;
  }
  return undefined;
}

const value = (answer: PlannedAnswer) => answer.plan.statement.presentValue;

describe('for any plant', () => {
  it('the statement, summed from the quantities, equals the objective', () => {
    expect(
      firstBreach(({ answer }) => Math.abs(value(answer) - answer.plan.certificate.objective)),
    ).toBeUndefined();
  });

  it('mass in is mass out and the change in stock, in total and by material', () => {
    for (const { seed, answer } of generated) {
      const { massBalance } = answer.plan;
      const worst = Math.max(
        ...massBalance.materials.map((each) => Math.abs(each.residual)),
        Math.abs(massBalance.residual),
      );
      expect(worst, `seed ${seed}`).toBeLessThanOrEqual(TOLERANCE * (1 + massBalance.in));
    }
  });

  it('the ladder and what is not on it add up to the margin', () => {
    for (const { seed, answer } of generated) {
      const { ladder, statement } = answer.plan;
      const net = ladder.total.reduce((sum, rung) => sum + rung.net, 0);
      const rest = ladder.rest.reduce((sum, each) => sum + each, 0);
      expect(Math.abs(net + rest - statement.margin), `seed ${seed}`).toBeLessThanOrEqual(
        1e-9 * statement.scale,
      );
    }
  });

  it('the tonnes of tire on the rungs are those received, less what went into stock', () => {
    for (const { seed, answer, scenario } of generated) {
      const held = scenario.materials.some((material) => material.stock !== undefined);
      if (held) continue;
      const tires = answer.plan.ladder.total.reduce((sum, rung) => sum + rung.tires, 0);
      expect(Math.abs(tires - answer.plan.massBalance.in), `seed ${seed}`).toBeLessThanOrEqual(
        1e-6 * (1 + tires),
      );
    }
  });

  it('the same plant in the other mass unit has the same present value', () => {
    expect(
      firstBreach(({ scenario, answer }) =>
        Math.abs(value(planned(inOtherMassUnit(scenario))) - value(answer)),
      ),
    ).toBeUndefined();
  });

  it('money times a factor is present value times the factor, for small money and for large', () => {
    for (const factor of [0.01, 400]) {
      expect(
        firstBreach(({ scenario, answer }) => {
          return Math.abs(value(planned(withMoneyScaled(scenario, factor))) / factor - value(answer));
        }),
      ).toBeUndefined();
    }
  });

  it('the order of the lists changes nothing, to the last digit of every figure', () => {
    for (const { seed, scenario, answer } of generated) {
      const shuffled = planned(withListsShuffled(scenario, seed));
      const same = JSON.stringify(shuffled.plan.months) === JSON.stringify(answer.plan.months);
      expect(same, `seed ${seed}`).toBe(true);
    }
  });

  it('an option that nobody would use changes nothing', () => {
    expect(
      firstBreach(({ seed, scenario, answer }) =>
        Math.abs(value(planned(withUnusedOption(scenario, seed))) - value(answer)),
      ),
    ).toBeUndefined();
  });

  it('more capacity never lowers the present value', () => {
    expect(
      firstBreach(
        ({ seed, scenario, answer }) => value(answer) - value(planned(withMoreCapacity(scenario, seed))),
      ),
    ).toBeUndefined();
  });

  it('the same question has the same answer, to the last bit', () => {
    for (const { seed, scenario, answer } of generated.slice(0, 20)) {
      const same = JSON.stringify(planned(scenario).plan) === JSON.stringify(answer.plan);
      expect(same, `seed ${seed}`).toBe(true);
    }
  });
});

describe('the two engines', () => {
  it('agree on the present value of 500 plants, linear and with whole numbers, and on which have no plan', () => {
    const tally = { agreed: 0, unanswered: 0, withoutPlan: 0 };
    for (let seed = 1; seed <= 500; seed++) {
      const scenario = generateScenario(seed, {
        degenerate: seed % 3 === 0,
        tight: seed % 5 === 0,
        integers: seed % 10 === 0,
      });
      const plant = derivePlant(scenario);
      const [first, second] = (['highs', 'javascript-lp-solver'] as const).map((choice) =>
        planMonths(plant, solvers.get(choice) as Solver, { gap: 1e-9, seconds: 2 }),
      );
      if ([first, second].some(({ status }) => status === 'no certified answer' || status === 'stopped')) {
        tally.unanswered += 1;
        continue;
      }
      expect(second.status, `seed ${seed}`).toBe(first.status);
      if (!('plan' in first) || !('plan' in second)) {
        tally.withoutPlan += 1;
        continue;
      }
      const difference = Math.abs(value(first) - value(second)) / first.plan.statement.scale;
      expect(difference, `seed ${seed}`).toBeLessThanOrEqual(TOLERANCE);
      tally.agreed += 1;
    }
    // Counted, not hidden: the plants for which an engine certified no answer.
    expect(tally.unanswered).toBeLessThanOrEqual(10);
    expect(tally.agreed + tally.withoutPlan + tally.unanswered).toBe(500);
    expect(tally.withoutPlan).toBeGreaterThan(0);
  });
});
