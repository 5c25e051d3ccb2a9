import { beforeAll, describe, expect, it } from 'vitest';
import { planMonths } from '../../../src/analysis/monthly-plan.js';
import { sweep } from '../../../src/analysis/sweep/sweep.js';
import type { SweepAnswer } from '../../../src/analysis/sweep/sweep-answer.js';
import { familyOf } from '../../../src/analysis/variant/program-family.js';
import { loadSolver, type Solver } from '../../../src/solver/choose.js';
import { seededRandom } from '../../generate/random.js';
import { exactCase, type SweepCase } from './cases.js';

/** More with CUTPOINT_SWEEP_PLANTS=300 CUTPOINT_SWEEP_POINTS=50. */
const PLANTS = Number(process.env.CUTPOINT_SWEEP_PLANTS ?? 30);
const POINTS = Number(process.env.CUTPOINT_SWEEP_POINTS ?? 2);

describe('an exact curve', () => {
  let solver: Solver;
  beforeAll(async () => {
    solver = await loadSolver('highs');
  });

  it(`equals fresh plans at random points on ${PLANTS} plants, with 2 solves a segment and 3 more`, () => {
    const faults: string[] = [];
    for (let seed = 1; seed <= PLANTS; seed += 1) {
      const one = exactCase(seed);
      const answer = sweep(one.document, one, solver);
      if (answer.status !== 'complete' || !answer.exact) {
        faults.push(`seed ${seed}: ${one.parameter.pointers} is not exact`);
        continue;
      }
      const segments = 1 + answer.points.filter(({ kind }) => kind === 'breakpoint').length;
      if (answer.solves > 2 * segments + 3) faults.push(`seed ${seed}: ${answer.solves} solves`);
      faults.push(...differences(one, answer, solver).map((fault) => `seed ${seed}: ${fault}`));
    }
    expect(faults).toEqual([]);
  });
});

function differences(one: SweepCase, answer: SweepAnswer, solver: Solver): string[] {
  const random = seededRandom(one.seed, 'fresh');
  const found = familyOf(one.document, one.parameter);
  if (!found.ok) return ['no family'];
  return Array.from({ length: POINTS }, () => random.real(one.from, one.to, 9)).flatMap((at) => {
    const range = answer.ranges.find(({ from, to }) => from <= at && at <= to);
    const member = found.family(at);
    const plan = member.ok ? planMonths(member.formulation.plant, solver) : undefined;
    if (plan?.status !== 'optimal') {
      return range?.status === 'answered'
        ? [`answered at ${at}, where there is ${plan?.status ?? 'no plant'}`]
        : [];
    }
    const { presentValue, scale } = plan.plan.statement;
    const off = Math.abs(curveAt(answer, at) - presentValue);
    return off <= 1e-6 * scale ? [] : [`off by ${off} at ${at} (${range?.status})`];
  });
}

/** NaN outside the curve. */
function curveAt({ points }: SweepAnswer, at: number): number {
  const k = points.findIndex(
    (point, i) => point.at <= at && at <= (points[i + 1]?.at ?? Number.NEGATIVE_INFINITY),
  );
  const [left, right] = [points[k], points[k + 1]];
  if (left === undefined || right === undefined) return Number.NaN;
  return left.value + ((right.value - left.value) * (at - left.at)) / (right.at - left.at);
}
