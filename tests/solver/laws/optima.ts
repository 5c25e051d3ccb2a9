import { expect } from 'vitest';
import type { ModelJson } from '../model-json.js';
import { expectModelOptimum, type Law, rounded, solveModel } from './law.js';

/** max 3x + 5y, x ≤ 4, 2y ≤ 12, 3x + 2y ≤ 18: at (2, 6) it is 36, with duals 0, 1.5, 1. */
const GLASS: ModelJson = {
  sense: 'maximize',
  columns: { x: { cost: 3 }, y: { cost: 5 } },
  rows: {
    a: { upper: 4, terms: { x: 1 } },
    b: { upper: 12, terms: { y: 2 } },
    c: { upper: 18, terms: { x: 3, y: 2 } },
  },
};

/** min 2x + 3y, x + y ≥ 10, x ≤ 6: 6·2 + 4·3 = 24; one more unit costs 3, one more x saves 1. */
const DIET: ModelJson = {
  sense: 'minimize',
  columns: { x: { cost: 2 }, y: { cost: 3 } },
  rows: { need: { lower: 10, terms: { x: 1, y: 1 } }, cap: { upper: 6, terms: { x: 1 } } },
};

export const optimumLaws: Readonly<Record<string, Law>> = {
  'an optimum comes with its point and duals': (engine) => {
    const answer = expectModelOptimum(engine, GLASS, 36);
    expect([...(answer.primal as Float64Array)]).toEqual([2, 6]);
    expect(rounded(answer.dual?.rowDual)).toEqual([0, 1.5, 1]);
    expect(rounded(answer.dual?.reducedCost)).toEqual([0, 0]);
  },

  'a row dual is d objective / d right side, minimizing too': (engine) => {
    const answer = expectModelOptimum(engine, DIET, 24);
    expect(rounded(answer.dual?.rowDual)).toEqual([3, -1]);
    expect(rounded(answer.dual?.reducedCost)).toEqual([0, 0]);
  },

  'a lower bound that is paid for, and a limit that earns, have duals of the opposite sign': (engine) => {
    // max 4x − y, x ≤ 3y, y ≤ 5, x ≥ 6 and x ≤ 9: x = 9, y = 3, 33; one more x earns 4 − 1/3.
    const answer = expectModelOptimum(
      engine,
      {
        sense: 'maximize',
        columns: { x: { cost: 4 }, y: { cost: -1, upper: 5 } },
        rows: { make: { upper: 0, terms: { x: 1, y: -3 } }, sell: { lower: 6, upper: 9, terms: { x: 1 } } },
      },
      33,
    );
    expect(rounded(answer.dual?.rowDual)).toEqual([0.333333, 3.666667]);
  },

  'a column at its bound has a reduced cost: cost − Aᵀ·dual': (engine) => {
    // max 5x + 4y, x + y ≤ 10, x ≤ 3: x = 3, y = 7; x would earn 1 more than the row's 4.
    const answer = expectModelOptimum(
      engine,
      {
        sense: 'maximize',
        columns: { x: { cost: 5, upper: 3 }, y: { cost: 4 } },
        rows: { room: { upper: 10, terms: { x: 1, y: 1 } } },
      },
      43,
    );
    expect(rounded(answer.dual?.reducedCost)).toEqual([1, 0]);
  },

  'a degenerate optimum is found, and its duals certify': (engine) => {
    // Three rows meet in (0, 1); max y there is 1.
    expectModelOptimum(
      engine,
      {
        sense: 'maximize',
        columns: { x: {}, y: { cost: 1 } },
        rows: {
          a: { upper: 1, terms: { x: 1, y: 1 } },
          b: { upper: 1, terms: { y: 1 } },
          c: { upper: 1, terms: { x: -1, y: 1 } },
          d: { upper: 2, terms: { x: 1, y: 2 } },
        },
      },
      1,
    );
  },

  'rows that contradict each other are infeasible': (engine) => {
    const columns = { x: { cost: 1 } };
    const rows = { a: { upper: 1, terms: { x: 1 } }, b: { lower: 2, terms: { x: 1 } } };
    expect(solveModel(engine, { sense: 'maximize', columns, rows })).toEqual({ reason: 'infeasible' });
  },

  'a program without a largest value is unbounded': (engine) => {
    const columns = { x: { cost: 1 }, y: {} };
    const rows = { a: { upper: 1, terms: { x: 1, y: -1 } } };
    expect(solveModel(engine, { sense: 'maximize', columns, rows })).toEqual({ reason: 'unbounded' });
  },

  'infeasible and unbounded at once is infeasible': (engine) => {
    const columns = { x: { cost: 1 }, y: { cost: 1 } };
    const rows = { a: { upper: -1, terms: { y: 1 } }, b: { lower: 0, terms: { x: 1 } } };
    expect(solveModel(engine, { sense: 'maximize', columns, rows })).toEqual({ reason: 'infeasible' });
  },

  'the offset is not the engine’s to drop': (engine) => {
    expectModelOptimum(engine, { ...GLASS, offset: -1000 }, -964);
  },
};
