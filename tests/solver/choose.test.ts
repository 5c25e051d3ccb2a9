import { beforeAll, describe, expect, it } from 'vitest';
import { ProgramBuilder } from '../../src/program/builder.js';
import type { LinearProgram } from '../../src/program/linear-program.js';
import { createSolver, loadSolver, SMALL_PROGRAM_COLUMNS } from '../../src/solver/choose.js';
import { loadHighs } from '../../src/solver/highs.js';
import { loadJavascriptLpSolver } from '../../src/solver/javascript-lp-solver.js';
import { type Engine, type EngineAnswer, EngineFailure, type SolveLimits } from '../../src/solver/port.js';
import { hardKnapsacks } from './laws/hard-knapsacks.js';
import { programFrom } from './model-json.js';
import { optimum, pretending, SMALL } from './pretending-engine.js';
import { denseProgram } from './random-program.js';

const IMPOSSIBLE = programFrom({
  sense: 'maximize',
  columns: { x: { cost: 1 } },
  rows: { limit: { lower: 4, terms: { x: -1 } } },
});
/** The right answer to SMALL, one beyond its limit, and one that stops short. */
const RIGHT = optimum(4, 1);
const BEYOND = optimum(5, 1);
const SHORT = optimum(3, 1);

let highs: Engine;
let small: Engine;
beforeAll(async () => {
  [highs, small] = await Promise.all([loadHighs(), loadJavascriptLpSolver()]);
});

describe('the automatic choice', () => {
  it('asks the small engine for a small linear program, and stops when that certifies', () => {
    const answer = createSolver([highs, small]).solve(SMALL);
    expect(answer).toMatchObject({
      kind: 'solved',
      engine: 'javascript-lp-solver',
      certificate: { accepted: true },
    });
    expect(answer.attempts).toEqual([{ engine: 'javascript-lp-solver', outcome: 'certified' }]);
  });

  it('asks HiGHS for whole numbers and for programs with more columns', () => {
    const solver = createSolver([small, highs]);
    const names = (program: LinearProgram) => solver.enginesFor(program).map((engine) => engine.name);
    expect(names(withColumns(SMALL_PROGRAM_COLUMNS))).toEqual(['javascript-lp-solver', 'highs']);
    expect(names(withColumns(SMALL_PROGRAM_COLUMNS + 1))).toEqual(['highs']);
    expect(names(hardKnapsacks())).toEqual(['highs']);
  });

  it('goes on to HiGHS when the small engine cycles', () => {
    const answer = createSolver([small, highs]).solve(denseProgram(1, 60, 60));
    expect(answer).toMatchObject({ kind: 'solved', engine: 'highs' });
    expect(answer.attempts).toEqual([
      { engine: 'javascript-lp-solver', outcome: 'failed', detail: 'too many pivots' },
      { engine: 'highs', outcome: 'certified' },
    ]);
  });

  it.each<[string, EngineAnswer, string]>([
    ['its point breaks a row', BEYOND, 'primal feasibility'],
    ['its point is not the best', SHORT, 'complementary slackness'],
    ['its duals prove nothing', optimum(4, 0.5), 'dual feasibility'],
    ['it gives no duals', { reason: 'optimal', primal: Float64Array.of(4) }, ''],
  ])('goes on when the answer does not certify: %s', (_, lie, failure) => {
    const answer = createSolver([pretending('javascript-lp-solver', lie), highs]).solve(SMALL);
    expect(answer).toMatchObject({ kind: 'solved', engine: 'highs' });
    const [first] = answer.attempts;
    expect(first.outcome).toBe('uncertified');
    expect(first.outcome === 'uncertified' ? first.certificate.failures.join() : '').toContain(failure);
  });

  it.each(['infeasible', 'unbounded'] as const)('does not believe the first engine’s word %s', (reason) => {
    const answer = createSolver([pretending('javascript-lp-solver', { reason }), highs]).solve(SMALL);
    expect(answer).toMatchObject({ kind: 'solved', engine: 'highs' });
    expect(answer.attempts[0]).toEqual({ engine: 'javascript-lp-solver', outcome: reason });
  });

  it('believes HiGHS that a program is infeasible or unbounded', () => {
    const solver = createSolver([small, highs]);
    expect(solver.solve(IMPOSSIBLE)).toMatchObject({ kind: 'infeasible', engine: 'highs' });
    const open = programFrom({
      sense: 'maximize',
      columns: { x: { cost: 1 } },
      rows: { a: { lower: 0, terms: { x: 1 } } },
    });
    expect(solver.solve(open)).toMatchObject({ kind: 'unbounded', engine: 'highs' });
  });

  it('answers "uncertified", and never a plan, when no answer holds', () => {
    const answer = createSolver([
      pretending('javascript-lp-solver', BEYOND),
      pretending('highs', SHORT),
    ]).solve(SMALL);
    expect(answer).toEqual({ kind: 'uncertified', attempts: [expect.anything(), expect.anything()] });
  });

  it('does not ask a second engine after a cancel', () => {
    const solver = createSolver([small, pretending('highs', RIGHT)]);
    const answer = solver.solve(SMALL, { cancelled: () => true });
    expect(answer).toEqual({
      kind: 'stopped',
      reason: 'cancelled',
      attempts: [{ engine: 'javascript-lp-solver', outcome: 'cancelled' }],
    });
  });

  it('leaves the second engine at least half of the time', () => {
    const seen: SolveLimits[] = [];
    const solver = createSolver([
      pretending('javascript-lp-solver', { reason: 'time limit' }, seen),
      pretending('highs', RIGHT, seen),
    ]);
    expect(solver.solve(SMALL, { seconds: 8 }).kind).toBe('solved');
    expect(seen[0].seconds).toBeLessThanOrEqual(4);
    expect(seen[1].seconds).toBeGreaterThanOrEqual(4);
  });

  it('lets through what is thrown and is not the engine’s failure', () => {
    const mistaken: Engine = {
      ...small,
      open: () => {
        throw new TypeError('a mistake of ours');
      },
    };
    expect(() => createSolver([mistaken, highs]).solve(SMALL)).toThrow(TypeError);
  });
});

describe('a choice by name', () => {
  it('asks that engine only', () => {
    const lying = pretending('javascript-lp-solver', BEYOND);
    expect(createSolver([lying, highs], 'javascript-lp-solver').solve(SMALL).kind).toBe('uncertified');
    expect(createSolver([lying, highs], 'highs').solve(SMALL)).toMatchObject({
      kind: 'solved',
      engine: 'highs',
    });
  });

  it('of an engine that is not there is a mistake of the caller', () => {
    expect(() => createSolver([highs], 'javascript-lp-solver').solve(SMALL)).toThrow(RangeError);
  });

  it('loads no other engine', async () => {
    const solver = await loadSolver('highs');
    expect(solver.solve(SMALL)).toMatchObject({ kind: 'solved', engine: 'highs' });
    expect(solver.enginesFor(SMALL)).toHaveLength(1);
  });

  it('reports an engine that broke', () => {
    const broken: Engine = {
      ...highs,
      open: () => {
        throw new EngineFailure('highs', 'gone');
      },
    };
    expect(createSolver([broken], 'highs').solve(SMALL)).toEqual({
      kind: 'uncertified',
      attempts: [{ engine: 'highs', outcome: 'failed', detail: 'gone' }],
    });
  });
});

function withColumns(count: number): LinearProgram {
  const builder = new ProgramBuilder<number, number>();
  for (let j = 0; j < count; j++) builder.column(j);
  return builder.build();
}
