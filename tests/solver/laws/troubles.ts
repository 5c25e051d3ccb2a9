import { expect } from 'vitest';
import { certify } from '../../../src/program/certificate.js';
import { solveOnce } from '../../../src/solver/port.js';
import { type ModelJson, programFrom } from '../model-json.js';
import { denseProgram } from '../random-program.js';
import { expectModelOptimum, expectOptimum, type Law } from './law.js';
import { CYCLING, WITH_A_FREE_COLUMN } from './trouble-models.js';

/** Programs on which engines are known to go wrong, or would if they were given the figures as they are. */
export const troubleLaws: Readonly<Record<string, Law>> = {
  'a row that fixes a column does not take its cost away': (engine) => {
    expectModelOptimum(
      engine,
      {
        sense: 'minimize',
        columns: { x: { cost: 1 } },
        rows: { a: { upper: -5, terms: { x: -1 } }, b: { upper: 5, terms: { x: 1 } } },
      },
      5,
    );
  },

  'a free column may be negative': (engine) => {
    expectModelOptimum(
      engine,
      {
        sense: 'maximize',
        columns: { x: { cost: 1, free: true }, y: { cost: 1 } },
        rows: { a: { upper: -5, terms: { x: 1, y: 1 } }, b: { lower: -10, terms: { x: 1 } } },
      },
      -5,
    );
  },

  'a free column among ten rows ends at the right optimum': (engine) => {
    expectModelOptimum(engine, WITH_A_FREE_COLUMN, 16.6);
  },

  'figures beyond 1e10 are not infinite': (engine) => {
    const columns = { x: { cost: 1 }, y: { cost: 2 } };
    const rows = { a: { lower: 1e7, terms: { x: 1e-4, y: 1e-4 } } };
    expectModelOptimum(engine, { sense: 'minimize', columns, rows }, 1e11);
  },

  'a coefficient that is set to zero is no coefficient': (engine) => {
    const program = programFrom({
      sense: 'maximize',
      columns: { x: { cost: 1 }, y: { cost: 1 } },
      rows: { z: { upper: 5, terms: { x: 1, y: 1 } }, c: { upper: 10, terms: { x: 1, y: 1 } } },
    });
    const session = engine.open(program);
    session.setCoefficient(0, 0, 0);
    session.setCoefficient(0, 1, 0);
    expect(session.solve().primal?.reduce((sum, value) => sum + value)).toBeCloseTo(10, 9);
    session.close();
  },

  'large coefficients against small right sides bind': (engine) => {
    const rows = { a: { upper: 1e-3, terms: { x: 1e6 } } };
    expectModelOptimum(engine, { sense: 'maximize', columns: { x: { cost: 1 } }, rows }, 1e-9);
    expectModelOptimum(engine, { sense: 'maximize', columns: { x: { cost: 1e6, upper: 10 } }, rows }, 1e-3);
  },

  'small costs and small coefficients count': (engine) => {
    const cap = { a: { upper: 1e9, terms: { x: 1 } } };
    expectModelOptimum(engine, { sense: 'maximize', columns: { x: { cost: 1e-9 } }, rows: cap }, 1);
    const need = { a: { lower: 1, terms: { x: 1e-9 } } };
    expectModelOptimum(engine, { sense: 'minimize', columns: { x: { cost: 1 } }, rows: need }, 1e9);
  },

  'prices of 200,000 and of 0.000002 a tonne give the same plan': (engine) => {
    const model = (money: number): ModelJson => ({
      sense: 'maximize',
      columns: {
        buy: { cost: -money, upper: 100 },
        make: { cost: -0.25 * money },
        sell: { cost: 2 * money, upper: 60 },
      },
      rows: {
        stock: { equal: 0, terms: { buy: 1, make: -1 } },
        yield: { equal: 0, terms: { make: 0.8, sell: -1 } },
      },
    });
    // 60 sold, 75 bought and made: 120 − 75 − 18.75 = 26.25 times the unit of money.
    for (const money of [2e5, 1, 2e-6]) {
      const answer = expectModelOptimum(engine, model(money), 26.25 * money);
      expect(answer.primal?.[2]).toBeCloseTo(60, 9);
      expect((answer.dual?.rowDual[1] ?? 0) / money).toBeCloseTo(-1.5625, 9);
    }
  },

  'a program on which the first phase can cycle for ever is solved': (engine) => {
    const program = programFrom(CYCLING);
    expectOptimum(program, solveOnce(engine, program), 388.7685393258427);
  },

  'four dense programs of sixty columns and rows are solved': (engine) => {
    for (let seed = 1; seed <= 4; seed++) {
      const program = denseProgram(seed, 60, 60);
      const answer = solveOnce(engine, program);
      expect(answer.reason).toBe('optimal');
      expect(
        certify(program, { primal: answer.primal as Float64Array, rowDual: answer.dual?.rowDual }).failures,
      ).toEqual([]);
    }
  },
};
