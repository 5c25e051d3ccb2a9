import { beforeAll, describe, expect, it } from 'vitest';
import { explainPlan } from '../../src/analysis/explain/explain-plan.js';
import type { Explanation, WouldTake } from '../../src/analysis/explain/explanation.js';
import { planLimits } from '../../src/analysis/limits/plan-limits.js';
import { discountFactor } from '../../src/planning/discount.js';
import type { PlanProgram } from '../../src/planning/formulate.js';
import { type AffineChange, NO_CHANGE } from '../../src/program/affine-change.js';
import { objectiveAt } from '../../src/program/linear-program.js';
import { loadSolver, type Solver } from '../../src/solver/choose.js';
import { type ExplainCase, explainCase } from './explain-cases.js';

const PLANTS = Array.from({ length: 90 }, (_, index) => 1001 + index);
/** On the scale S: what an answer may miss a re-solve by. */
const TOLERANCE = 1e-6;
/** On the scale S: what a plan may gain and count as gaining nothing; rounding of a value is below 1e-13 of it. */
const NOTHING = 1e-10;

let solver: Solver;
let explained: readonly { readonly own: ExplainCase; readonly explanation: Explanation }[];
beforeAll(async () => {
  solver = await loadSolver();
  explained = PLANTS.map((seed) => {
    const own = explainCase(seed, solver, {
      size: seed % 2 === 0 ? 'full' : 'small',
      months: seed % 2 === 0 ? 1 : 2,
      degenerate: seed % 4 === 0,
    });
    const explanation = explainPlan(own.answer, solver);
    if (explanation === undefined) throw new Error(`seed ${seed}: no explanation`);
    return { own, explanation };
  });
}, 120_000);

describe('answers of an explanation against solves of the program as it would then be', () => {
  it('a unit more or less in every month at once', () => {
    let sides = 0;
    for (const { own, explanation } of explained) {
      for (const rent of explanation.rentsOverMonths) {
        const change = inEveryMonth(own, rent.limit);
        const where = `seed ${own.seed} ${JSON.stringify(rent)}`;
        for (const direction of [1, -1] as const) {
          const slope = direction === 1 ? rent.oneMore : rent.oneLess;
          const range = (direction === 1 ? rent.holdsMore : rent.holdsLess) ?? Number.POSITIVE_INFINITY;
          const step = slope === undefined ? 1e-2 : Math.min(range / 2, 0.5);
          const value = own.valueAt(change, direction * step);
          if (slope === undefined) {
            expect(value, where).toBeUndefined();
            continue;
          }
          const missed = (value ?? Number.NaN) - own.value - slope * direction * step;
          expect(Math.abs(missed) / own.scale, where).toBeLessThanOrEqual(TOLERANCE);
          sides += 1;
        }
      }
    }
    expect(sides).toBeGreaterThan(500);
  });

  it('a tonne that is forced in costs what is said', () => {
    let single = 0;
    let several = 0;
    for (const { own, explanation } of explained) {
      for (const entry of explanation.wouldTake) {
        if (entry.forced === undefined) continue;
        const columns = columnsOf(own, entry);
        const factor = discountFactor(own.formulation.plant, entry.what.month);
        const least = (columns.length === 1 ? entry.used : 0) + entry.forced.mass;
        const best = bestWithAtLeast(own, columns, least, solver);
        const missed = own.value - best - entry.forced.loss * factor;
        const where = `seed ${own.seed} ${JSON.stringify(entry)}`;
        expect(Math.abs(missed) / own.scale, where).toBeLessThanOrEqual(TOLERANCE);
        if (columns.length === 1) single += 1;
        else several += 1;
      }
    }
    expect(single).toBeGreaterThan(500);
    expect(several).toBeGreaterThan(100);
  });

  it('a step comes in just above its yield and not just below', () => {
    let above = 0;
    let entries = 0;
    for (const { own, explanation } of explained) {
      for (const { what, yield: answer } of explanation.wouldTake) {
        if (answer === undefined || what.kind !== 'step') continue;
        entries += 1;
        const gain = (share: number) =>
          ((own.optimumOf(withYieldMoved(own, what, answer, share)) ?? Number.NaN) - own.value) / own.scale;
        const where = `seed ${own.seed} ${JSON.stringify({ what, answer })}`;
        expect(gain(answer.share * (1 - 1e-6)), where).toBeLessThanOrEqual(NOTHING);
        const more = answer.share + 0.01;
        if (more > shareOf(own, what.step, answer.givesWay)) continue;
        expect(gain(more), where).toBeGreaterThan(NOTHING);
        above += 1;
      }
    }
    expect(entries).toBeGreaterThan(50);
    expect(above).toBeGreaterThan(40);
  });
});

function inEveryMonth(own: ExplainCase, limit: { readonly kind: string }): AffineChange {
  const name = (key: object) => JSON.stringify({ ...key, month: 0 });
  const changes = planLimits(own.formulation).flatMap(({ key, change }) =>
    name(key) === name(limit) ? [change] : [],
  );
  const rates = (part: 'rowLower' | 'rowUpper' | 'columnLower' | 'columnUpper') =>
    new Map(changes.flatMap((change) => [...change[part]]));
  return {
    ...NO_CHANGE,
    rowLower: rates('rowLower'),
    rowUpper: rates('rowUpper'),
    columnLower: rates('columnLower'),
    columnUpper: rates('columnUpper'),
  };
}

/** Columns by their keys. */
function columnsOf(own: ExplainCase, { what }: Pick<WouldTake, 'what'>): number[] {
  return own.formulation.program.columnKeys.flatMap((key, column) => {
    if (!('month' in key) || key.month !== what.month) return [];
    const same = (() => {
      switch (what.kind) {
        case 'outlet':
          return key.kind === 'sell' && key.outlet === what.outlet && key.tier === what.tier;
        case 'feed':
          return key.kind === 'receive' && key.feed === what.feed;
        case 'step':
          return key.kind === 'run' && key.step === what.step;
        case 'contract':
          return key.kind === 'deliver' && key.contract === what.contract && key.material === what.material;
      }
    })();
    return same ? [column] : [];
  });
}

/** The best value with Σ columns ≥ least, as a row more. */
function bestWithAtLeast(own: ExplainCase, columns: readonly number[], least: number, by: Solver): number {
  const { program } = own.formulation;
  const { starts, rows, values } = program.matrix;
  const entries = program.columnKeys.map((_, j) => {
    const own = Array.from({ length: starts[j + 1] - starts[j] }, (_, at) => [
      rows[starts[j] + at],
      values[starts[j] + at],
    ]);
    return columns.includes(j) ? [...own, [program.rowKeys.length, 1]] : own;
  });
  const filled = entries.flat();
  let filledSoFar = 0;
  const longer = {
    ...program,
    rowKeys: [...program.rowKeys, 'at least' as const],
    rowLower: Float64Array.of(...program.rowLower, least),
    rowUpper: Float64Array.of(...program.rowUpper, Number.POSITIVE_INFINITY),
    matrix: {
      starts: Int32Array.of(0, ...entries.map((list) => (filledSoFar += list.length))),
      rows: Int32Array.from(filled, ([row]) => row),
      values: Float64Array.from(filled, ([, value]) => value),
    },
  };
  const answer = by.solve(longer);
  return answer.kind === 'solved' ? objectiveAt(longer, answer.answer.primal) : Number.NaN;
}

function shareOf(own: ExplainCase, step: string, material: string): number {
  const { yields } = own.formulation.plant.steps.find(({ id }) => id === step)!;
  return yields.find((each) => each.material === material)!.share;
}

/** The step's coefficients in the two balances of the month, each in proportion to its share. */
function withYieldMoved(
  own: ExplainCase,
  what: Extract<WouldTake['what'], { kind: 'step' }>,
  { output, givesWay }: NonNullable<WouldTake['yield']>,
  share: number,
): PlanProgram {
  const { program } = own.formulation;
  const { starts, rows } = program.matrix;
  const values = program.matrix.values.slice();
  for (const column of columnsOf(own, { what })) {
    for (let k = starts[column]; k < starts[column + 1]; k++) {
      const key = program.rowKeys[rows[k]];
      if (key.kind !== 'balance' || key.month !== what.month) continue;
      if (key.material === output) values[k] *= 1 + share / shareOf(own, what.step, output);
      if (key.material === givesWay) values[k] *= 1 - share / shareOf(own, what.step, givesWay);
    }
  }
  return { ...program, matrix: { ...program.matrix, values } };
}
