import { beforeAll, describe, expect, it } from 'vitest';
import { sweep } from '../../../src/analysis/sweep/sweep.js';
import { loadSolver, type Solver } from '../../../src/solver/choose.js';
import { exactCase } from './cases.js';
import { againstGrid } from './fine-grid.js';

/** Places of the grid. */
const CELLS = 10_000;

/** Small plants: prices (11, 23), limits (20), a degenerate one (3) and a flat curve (12); more in the bench. */
const SEEDS = [3, 11, 12, 20, 23];

describe(`an exact curve against ${CELLS} solves`, () => {
  let solver: Solver;
  beforeAll(async () => {
    solver = await loadSolver('highs');
  });

  it.each(SEEDS)('has every breakpoint and no other, on plant %i', (seed) => {
    const one = exactCase(seed);
    const answer = sweep(one.document, one, solver);
    if (answer.status !== 'complete' || !answer.exact) throw new Error('not exact');
    const { missing, spurious, worst, solves } = againstGrid(one, answer, CELLS, solver);
    expect({ missing, spurious }).toEqual({ missing: [], spurious: [] });
    expect(worst).toBeLessThan(1e-9);
    expect(solves).toBe(CELLS + 1);
  });

  it('would show a breakpoint that is missing and one that is none', () => {
    const one = exactCase(20);
    const answer = sweep(one.document, one, solver);
    if (answer.status === 'problems') throw new Error('problems');
    const [first, second] = answer.points.filter(({ kind }) => kind === 'breakpoint');
    const without = { ...answer, points: answer.points.filter((point) => point !== first) };
    const shown = againstGrid(one, without, 1000, solver).missing;
    expect(shown.some((at) => Math.abs(at - first.at) < (one.to - one.from) / 500)).toBe(true);
    const made = { ...second, at: (first.at + second.at) / 2, value: (first.value + second.value) / 2 };
    const points = [...answer.points, made].sort((a, b) => a.at - b.at);
    expect(againstGrid(one, { ...answer, points }, 1000, solver).spurious).toEqual([made.at]);
  });
});
