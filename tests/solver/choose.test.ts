import { beforeAll, describe, expect, it } from 'vitest';
import { ProgramBuilder } from '../../src/program/builder.js';
import type { LinearProgram } from '../../src/program/linear-program.js';
import { createSolver, loadSolver, SMALL_PROGRAM_COLUMNS } from '../../src/solver/choose.js';
import { loadHighs } from '../../src/solver/highs.js';
import { loadJavascriptLpSolver } from '../../src/solver/javascript-lp-solver.js';
import {
  type Engine,
  type EngineAnswer,
  EngineFailure,
  type EngineName,
  type SolveLimits,
} from '../../src/solver/port.js';
import { hardKnapsacks } from './laws/hard-knapsacks.js';
import { programFrom } from './model-json.js';
import { denseProgram } from './random-program.js';

const SMALL = programFrom({
  sense: 'maximize',
  columns: { x: { cost: 1 } },
  rows: { limit: { upper: 4, terms: { x: 1 } } },
});
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

function optimum(x: number, dual: number): EngineAnswer {
  return {
    reason: 'optimal',
    primal: Float64Array.of(x),
    dual: { rowDual: Float64Array.of(dual), reducedCost: Float64Array.of(1 - dual) },
  };
}

/** An engine that says the same whatever it is asked, and notes the limits that it was given. */
function pretending(name: EngineName, answer: EngineAnswer, seen: SolveLimits[] = []): Engine {
  const ignore = () => {};
  return {
    name,
    version: '0',
    open: () => ({
      setCost: ignore,
      setColumnBounds: ignore,
      setRowBounds: ignore,
      setCoefficient: ignore,
      solve: (limits = {}) => {
        seen.push(limits);
        return answer;
      },
      basis: () => undefined,
      startFrom: ignore,
      close: ignore,
    }),
  };
}

function withColumns(count: number): LinearProgram {
  const builder = new ProgramBuilder<number, number>();
  for (let j = 0; j < count; j++) builder.column(j);
  return builder.build();
}
