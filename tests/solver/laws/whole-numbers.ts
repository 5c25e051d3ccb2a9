import { expect } from 'vitest';
import { expectModelOptimum, type Law, solveModel } from './law.js';

export const wholeNumberLaws: Readonly<Record<string, Law>> = {
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

  'bounds without a whole number between them are infeasible, with rows or without': (engine) => {
    const columns = { x: { cost: 1, integer: true, lower: 0.4, upper: 0.6 } };
    const rows = { a: { upper: 9, terms: { x: 1 } } };
    expect(solveModel(engine, { sense: 'maximize', columns, rows: {} })).toEqual({ reason: 'infeasible' });
    expect(solveModel(engine, { sense: 'maximize', columns, rows })).toEqual({ reason: 'infeasible' });
  },
};
