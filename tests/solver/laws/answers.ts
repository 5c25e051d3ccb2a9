import { expect } from 'vitest';
import { ProgramBuilder } from '../../../src/program/builder.js';
import { solveOnce } from '../../../src/solver/port.js';
import type { ModelJson } from '../model-json.js';
import { expectModelOptimum, expectOptimum, type Law, solveModel } from './law.js';

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

export const answerLaws: Readonly<Record<string, Law>> = {
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

  'equality rows hold, and their dual may have either sign': (engine) => {
    // min x + 3y, x + y = 4, x − y = 2: x = 3, y = 1, 6; by Cramer the duals are 2 and −1.
    const answer = expectModelOptimum(
      engine,
      {
        sense: 'minimize',
        columns: { x: { cost: 1 }, y: { cost: 3 } },
        rows: { sum: { equal: 4, terms: { x: 1, y: 1 } }, difference: { equal: 2, terms: { x: 1, y: -1 } } },
      },
      6,
    );
    expect(rounded(answer.dual?.rowDual)).toEqual([2, -1]);
  },

  'a ranged row holds on both sides': (engine) => {
    const model = (sense: ModelJson['sense']): ModelJson => ({
      sense,
      columns: { x: { cost: 1 }, y: { cost: 1 } },
      rows: { range: { lower: 2, upper: 7, terms: { x: 1, y: 1 } } },
    });
    expectModelOptimum(engine, model('minimize'), 2);
    expectModelOptimum(engine, model('maximize'), 7);
  },

  'a row without bounds says nothing': (engine) => {
    const rows = { limit: { upper: 3, terms: { x: 1 } }, memo: { terms: { x: 5 } } };
    const answer = expectModelOptimum(engine, { sense: 'maximize', columns: { x: { cost: 1 } }, rows }, 3);
    expect(rounded(answer.dual?.rowDual)).toEqual([1, 0]);
  },

  'free, fixed and bounded columns keep to their bounds': (engine) => {
    // max −a + 2b + 3c + d + e with a free, a ≥ −10 by a row, b = 4 fixed, −5 ≤ c ≤ −2, d ≤ −1, e in [2, 6]
    // with d + e ≤ 3: 10 + 8 − 6 + 3 = 15.
    expectModelOptimum(
      engine,
      {
        sense: 'maximize',
        columns: {
          a: { cost: -1, free: true },
          b: { cost: 2, lower: 4, upper: 4 },
          c: { cost: 3, lower: -5, upper: -2 },
          d: { cost: 1, free: true, upper: -1 },
          e: { cost: 1, lower: 2, upper: 6 },
        },
        rows: { floor: { lower: -10, terms: { a: 1 } }, pair: { upper: 3, terms: { d: 1, e: 1 } } },
      },
      15,
    );
  },

  'the offset is not the engine’s to drop': (engine) => {
    expectModelOptimum(engine, { ...GLASS, offset: -1000 }, -964);
  },

  'a program without columns is optimal where 0 satisfies its rows': (engine) => {
    const rows = (lower: number) => ({ a: { lower, terms: {} } });
    const answer = solveModel(engine, { sense: 'maximize', columns: {}, rows: rows(-1) });
    expect(answer.reason).toBe('optimal');
    expect(answer.dual?.rowDual).toEqual(new Float64Array(1));
    expect(solveModel(engine, { sense: 'maximize', columns: {}, rows: rows(1) }).reason).toBe('infeasible');
    expect(solveModel(engine, { sense: 'minimize', columns: {}, rows: {} }).reason).toBe('optimal');
  },

  'a program without rows goes to the bounds that its costs ask for': (engine) => {
    const columns = { x: { cost: 2, upper: 3 }, y: { cost: -1, lower: -4 }, z: {} };
    const answer = expectModelOptimum(engine, { sense: 'maximize', columns, rows: {} }, 10);
    expect([...(answer.primal as Float64Array)]).toEqual([3, -4, 0]);
    expect(solveModel(engine, { sense: 'minimize', columns: { x: { cost: -1 } }, rows: {} }).reason).toBe(
      'unbounded',
    );
  },

  'a program whose columns are all fixed is a sum, or infeasible': (engine) => {
    const model = (upper: number): ModelJson => ({
      sense: 'maximize',
      columns: { x: { cost: 2, lower: 3, upper: 3 } },
      rows: { a: { upper, terms: { x: 1 } } },
    });
    expectModelOptimum(engine, model(5), 6);
    expect(solveModel(engine, model(2)).reason).toBe('infeasible');
  },

  'keys are nobody’s names: any key goes, twice the same too': (engine) => {
    const builder = new ProgramBuilder<unknown, unknown>('maximize');
    const keys = [
      'result',
      'feasible',
      'bounded',
      'isIntegral',
      '__proto__',
      'constructor',
      '0',
      '',
      'a b\n;',
      null,
    ];
    for (const key of keys) {
      const column = builder.column(key, { cost: 1 });
      const row = builder.row(key, { upper: 2 });
      builder.add(row, column, 1);
      builder.add(builder.row('result', { upper: 9 }), column, 1);
    }
    const program = builder.build();
    expectOptimum(program, solveOnce(engine, program), 2 * keys.length);
  },

  'whole numbers are whole, and have no duals': (engine) => {
    // max 8a + 11b + 6c + 4d, 5a + 7b + 4c + 3d ≤ 14, all 0 or 1: b, c, d, 21 (without 0 or 1: 22).
    const binary = { integer: true, upper: 1 };
    const answer = expectModelOptimum(
      engine,
      {
        sense: 'maximize',
        columns: {
          a: { cost: 8, ...binary },
          b: { cost: 11, ...binary },
          c: { cost: 6, ...binary },
          d: { cost: 4, ...binary },
        },
        rows: { room: { upper: 14, terms: { a: 5, b: 7, c: 4, d: 3 } } },
      },
      21,
    );
    expect(answer.dual).toBeUndefined();
    expect(answer.bound).toBeCloseTo(21, 9);
  },

  'a whole number between two thirds and nine tenths does not exist': (engine) => {
    const columns = { x: { cost: 1, integer: true, upper: 5 }, y: { upper: 1 } };
    const rows = { a: { lower: 2, terms: { x: 3 } }, b: { upper: 9, terms: { x: 10, y: 1 } } };
    expect(solveModel(engine, { sense: 'maximize', columns, rows }).reason).toBe('infeasible');
  },

  'whole numbers without a largest value are unbounded': (engine) => {
    const columns = { x: { cost: 1, integer: true }, y: { integer: true } };
    const rows = { a: { lower: 1, upper: 4, terms: { x: 1, y: -1 } } };
    expect(solveModel(engine, { sense: 'maximize', columns, rows }).reason).toBe('unbounded');
  },
};

function rounded(values: Float64Array | undefined): number[] {
  return [...(values ?? [])].map((value) => Math.round(value * 1e6) / 1e6 + 0);
}
