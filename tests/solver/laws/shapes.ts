import { expect } from 'vitest';
import { ProgramBuilder } from '../../../src/program/builder.js';
import { solveOnce } from '../../../src/solver/port.js';
import type { ModelJson } from '../model-json.js';
import { expectModelOptimum, expectOptimum, type Law, rounded, solveModel } from './law.js';

/** Every kind of row and column, and programs that lack either. */
export const shapeLaws: Readonly<Record<string, Law>> = {
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
};
