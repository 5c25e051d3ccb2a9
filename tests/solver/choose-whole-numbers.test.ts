import { beforeAll, describe, expect, it } from 'vitest';
import { createSolver } from '../../src/solver/choose.js';
import { loadHighs } from '../../src/solver/highs.js';
import { loadJavascriptLpSolver } from '../../src/solver/javascript-lp-solver.js';
import type { Engine } from '../../src/solver/port.js';
import { hardKnapsacks } from './laws/hard-knapsacks.js';
import { programFrom } from './model-json.js';

let highs: Engine;
let small: Engine;
beforeAll(async () => {
  [highs, small] = await Promise.all([loadHighs(), loadJavascriptLpSolver()]);
});

describe('whole numbers', () => {
  it('are certified by the duals of the relaxation, which tell the gap', () => {
    // max x, 2x ≤ 7, x whole: 3; the relaxation reaches 3.5, its duals prove it.
    const program = programFrom({
      sense: 'maximize',
      columns: { x: { cost: 1, integer: true } },
      rows: { a: { upper: 7, terms: { x: 2 } } },
    });
    for (const choice of ['auto', 'highs', 'javascript-lp-solver'] as const) {
      const answer = createSolver([small, highs], choice).solve(program);
      expect(answer).toMatchObject({
        kind: 'solved',
        certificate: { accepted: true, objective: 3 },
        answer: { bound: 3 },
      });
      expect(answer.kind === 'solved' ? answer.certificate.bound : 0).toBeCloseTo(3.5, 9);
    }
  });

  it('keep the best plan, certified, when they are stopped', () => {
    let found = false;
    const answer = createSolver([small, highs]).solve(hardKnapsacks(), {
      onProgress: ({ best }) => {
        found ||= best !== undefined;
      },
      cancelled: () => found,
    });
    expect(answer).toMatchObject({
      kind: 'stopped',
      reason: 'cancelled',
      best: { certificate: { accepted: true } },
    });
  });

  it('have no plan at a time limit of nothing', () => {
    const answer = createSolver([small, highs]).solve(hardKnapsacks(), { seconds: 0 });
    expect(answer).toMatchObject({ kind: 'stopped', reason: 'time limit' });
    expect(answer).not.toHaveProperty('best');
  });

  it('that do not exist are infeasible, though the relaxation is not', () => {
    const program = programFrom({
      sense: 'maximize',
      columns: { x: { cost: 1, integer: true } },
      rows: { a: { lower: 0.4, upper: 0.6, terms: { x: 1 } } },
    });
    expect(createSolver([small, highs]).solve(program)).toMatchObject({
      kind: 'infeasible',
      engine: 'highs',
    });
  });
});
