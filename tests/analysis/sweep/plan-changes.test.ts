import { beforeAll, describe, expect, it } from 'vitest';
import { planMonths } from '../../../src/analysis/monthly-plan.js';
import { sweep } from '../../../src/analysis/sweep/sweep.js';
import type { SweepAnswer, SweepPoint } from '../../../src/analysis/sweep/sweep-answer.js';
import { familyOf } from '../../../src/analysis/variant/program-family.js';
import type { Plant } from '../../../src/plant/plant.js';
import type { Scenario } from '../../../src/scenario/schema/scenario.js';
import { loadSolver, type Solver } from '../../../src/solver/choose.js';
import { tinyScenario } from '../../planning/tiny-plant.js';
import { exactCase } from './cases.js';

describe('where the plan changes although the value runs straight on', () => {
  let solver: Solver;
  beforeAll(async () => {
    solver = await loadSolver('highs');
  });

  const swept = (document: Scenario): SweepAnswer => {
    const parameter = { pointers: ['/feeds/yard/available'], kind: 'value' } as const;
    const answer = sweep(document, { parameter, from: 0, to: 100 }, solver);
    if (answer.status === 'problems') throw new Error('problems');
    return answer;
  };
  const placesOf = ({ points }: SweepAnswer) =>
    points.map(({ at, kind }) => [Math.round(at * 1e6) / 1e6, kind]);

  // A tonne brings 50 at the gate and 0.8·30 + 0.2·100 as products: 94, as long as the shredder's 40 hours last.
  // The kiln takes 8 t of shred, which 10 t of tires give; then the oven goes on at the same price.
  it('at the limit of one of two outlets of one price', () => {
    const { outlets } = tinyScenario();
    const kiln = { id: 'kiln', material: 'shred', price: 30, limit: 8 };
    const document = tinyScenario({
      outlets: [kiln, { id: 'oven', material: 'shred', price: 30 }, ...(outlets ?? []).slice(1)],
    });
    const answer = swept(document);
    expect(placesOf(answer)).toEqual([
      [0, 'end'],
      [10, 'plan change'],
      [40, 'breakpoint'],
      [100, 'end'],
    ]);
    const [, turn] = answer.points;
    expect([turn.slopeLeft, turn.slopeRight]).toEqual([expect.closeTo(94, 6), expect.closeTo(94, 6)]);
    expect(turn.value).toBeCloseTo(940, 5);
    const moves = [...(turn.change?.moves ?? [])].sort((a, b) => (a.id < b.id ? -1 : 1));
    expect(moves.map(({ kind, id, before, after }) => [kind, id, before, after])).toEqual([
      ['sell', 'kiln', expect.closeTo(0.8, 6), expect.closeTo(0, 6)],
      ['sell', 'oven', expect.closeTo(0, 6), expect.closeTo(0.8, 6)],
    ]);
    expect(turn.tonnesRight?.sold.kiln).toBeCloseTo(8, 6);
    expect(answer.solves).toBeLessThanOrEqual(2 * 2 + 3);
  });

  // The quick shredder is full at 40 t; the slow one goes on at no other cost until it is full at 60 t.
  it('at the capacity of the quicker of two machines that earn the same', () => {
    const { steps, machines } = tinyScenario();
    const [shredding] = steps;
    const document = tinyScenario({
      machines: [...machines, { id: 'crusher' }],
      steps: [...steps, { ...shredding, id: 'crushing', machine: 'crusher', throughput: 0.5 }],
    });
    expect(placesOf(swept(document))).toEqual([
      [0, 'end'],
      [40, 'plan change'],
      [60, 'breakpoint'],
      [100, 'end'],
    ]);
  });

  it('on generated plants the plan between two points takes as few machine-hours as a fresh one', () => {
    let stretches = 0;
    for (const seed of [5, 20, 22, 25, 27, 30]) {
      const one = exactCase(seed);
      const answer = sweep(one.document, one, solver);
      const found = familyOf(one.document, one.parameter);
      if (answer.status !== 'complete' || !found.ok) throw new Error('not complete');
      answer.points.slice(1).forEach((right, i) => {
        const left = answer.points[i];
        const member = found.family(left.at + 0.37 * (right.at - left.at));
        const fresh = member.ok ? planMonths(member.formulation.plant, solver) : undefined;
        if (!member.ok || fresh?.status !== 'optimal') throw new Error('no plan');
        const { plant } = member.formulation;
        if (plant.steps.some(({ throughput }) => new Set(throughput).size > 1)) return;
        const run = fresh.plan.months.flatMap((month) => month.steps);
        const hours = run.reduce((sum, step) => sum + step.hours, 0);
        const mixed = 0.63 * hoursOf(left, 'tonnesRight', plant) + 0.37 * hoursOf(right, 'tonnesLeft', plant);
        expect(mixed / hours, `seed ${seed} after ${left.at}`).toBeCloseTo(1, 6);
        stretches += 1;
      });
    }
    expect(stretches).toBeGreaterThan(20);
  });
});

function hoursOf(point: SweepPoint, side: 'tonnesLeft' | 'tonnesRight', plant: Plant): number {
  return plant.steps.reduce(
    (sum, { id, throughput }) => sum + (point[side]?.run[id] ?? 0) / throughput[0],
    0,
  );
}
