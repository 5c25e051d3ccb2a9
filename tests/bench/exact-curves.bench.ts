import { expect, it } from 'vitest';
import { sweep } from '../../src/analysis/sweep/sweep.js';
import { figuresOf, withParameter } from '../../src/analysis/variant/parameter.js';
import { formulate } from '../../src/planning/formulate.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import type { Scenario } from '../../src/scenario/schema/scenario.js';
import { loadSolver } from '../../src/solver/choose.js';
import { exactCase } from '../analysis/sweep/cases.js';
import { againstGrid } from '../analysis/sweep/fine-grid.js';
import { seededRandom } from '../generate/random.js';
import { median, printTable, quantile } from './measure.js';

const PLANTS = 300;
const POINTS = 50;

/** Exact curves of 300 plants against fresh programs at 50 random points each, and the solves that they took. */
it('exact curves equal fresh solves', async () => {
  const solver = await loadSolver('highs');
  const off: number[] = [];
  const spare: number[] = [];
  const breaks: number[] = [];
  let exact = 0;
  let turns = 0;
  for (let seed = 1; seed <= PLANTS; seed += 1) {
    const one = exactCase(seed);
    const answer = sweep(one.document, one, solver);
    if (answer.status !== 'complete' || !answer.exact) continue;
    exact += 1;
    const { points } = answer;
    const kinks = points.filter(({ kind }) => kind === 'breakpoint').length;
    breaks.push(kinks);
    turns += points.filter(({ kind }) => kind === 'plan change').length;
    spare.push(2 * (kinks + 1) + 3 - answer.solves);
    const random = seededRandom(seed, 'bench');
    const found = figuresOf(one.document, one.parameter);
    if (!found.ok) continue;
    for (let i = 0; i < POINTS; i += 1) {
      const at = random.real(points[0].at, points[points.length - 1].at, 9);
      const k = points.findIndex(
        (point, j) => point.at <= at && at <= (points[j + 1]?.at ?? Number.NEGATIVE_INFINITY),
      );
      if (k < 0) continue;
      const [a, b] = [points[k], points[k + 1]];
      const document = withParameter(one.document, one.parameter, found.figures, at) as Scenario;
      const solved = solver.solve(formulate(derivePlant(document)).program);
      if (solved.kind !== 'solved') continue;
      const value = a.value + ((b.value - a.value) * (at - a.at)) / (b.at - a.at);
      off.push(Math.abs(value - solved.certificate.objective) / solved.certificate.scale);
    }
  }
  printTable(`Exact curves of ${PLANTS} plants`, [
    {
      exact,
      points: off.length,
      'worst difference': Math.max(...off).toExponential(1),
      'breakpoints, median': median(breaks),
      'breakpoints, most': quantile(breaks, 1),
      'plan changes without a kink': turns,
      'least solves to spare': Math.min(...spare),
    },
  ]);
  expect(Math.max(...off)).toBeLessThan(1e-6);
  expect(Math.min(...spare)).toBeGreaterThanOrEqual(0);
});

/** Breakpoints of small plants against a grid of 10,000 solves that knows nothing of them. */
it('breakpoints against a fine grid', async () => {
  const solver = await loadSolver('highs');
  const verdicts = Array.from({ length: 40 }, (_, i) => exactCase(i + 1)).flatMap((one) => {
    const answer = sweep(one.document, one, solver);
    if (answer.status !== 'complete' || !answer.exact || answer.solves > 60) return [];
    return [
      {
        breaks: answer.points.filter(({ kind }) => kind === 'breakpoint').length,
        ...againstGrid(one, answer, 10_000, solver),
      },
    ];
  });
  printTable('Breakpoints against 10,000 solves a plant', [
    {
      plants: verdicts.length,
      breakpoints: verdicts.reduce((sum, { breaks }) => sum + breaks, 0),
      missing: verdicts.reduce((sum, { missing }) => sum + missing.length, 0),
      'too many': verdicts.reduce((sum, { spurious }) => sum + spurious.length, 0),
      'worst difference': Math.max(...verdicts.map(({ worst }) => worst)).toExponential(1),
    },
  ]);
  expect(verdicts.flatMap(({ missing, spurious }) => [...missing, ...spurious])).toEqual([]);
});
