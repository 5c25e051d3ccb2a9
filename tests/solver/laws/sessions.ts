import { expect } from 'vitest';
import { type LinearProgram, objectiveAt } from '../../../src/program/linear-program.js';
import { type Engine, type Session, solveOnce } from '../../../src/solver/port.js';
import { programFrom } from '../model-json.js';
import { randomFrom, randomProgram } from '../random-program.js';
import { expectOptimum, type Law } from './law.js';

export const sessionLaws: Readonly<Record<string, Law>> = {
  'a session that is changed answers like a fresh one': (engine) => {
    for (let seed = 1; seed <= 12; seed++) changeAndCompare(engine, seed);
  },

  'bounds that cross are infeasible, and uncrossed are not': (engine) => {
    const session = engine.open(programFrom(BOX));
    session.setColumnBounds(0, 5, 2);
    expect(session.solve()).toEqual({ reason: 'infeasible' });
    session.setColumnBounds(0, 1, 2);
    session.setRowBounds(0, 3, 1);
    expect(session.solve()).toEqual({ reason: 'infeasible' });
    session.setRowBounds(0, 1, 3);
    expect(session.solve().primal).toEqual(Float64Array.of(2));
    session.close();
  },

  'a change that makes no sense is refused': (engine) => {
    const session = engine.open(programFrom(BOX));
    expect(() => session.setCost(1, 0)).toThrow(RangeError);
    expect(() => session.setCost(0, Number.NaN)).toThrow(RangeError);
    expect(() => session.setColumnBounds(0, Number.NaN, 1)).toThrow(RangeError);
    expect(() => session.setRowBounds(-1, 0, 1)).toThrow(RangeError);
    expect(() => session.setCoefficient(0, 0, Number.POSITIVE_INFINITY)).toThrow(RangeError);
    session.close();
  },

  'the program that was opened is not changed': (engine) => {
    const program = programFrom(BOX);
    const session = engine.open(program);
    session.setCost(0, 7);
    session.setCoefficient(0, 0, 2);
    session.setRowBounds(0, 0, 9);
    session.close();
    expect(program).toEqual(programFrom(BOX));
  },

  'the same program has the same answer each time': (engine) => {
    const program = randomProgram(7, { columns: 30, rows: 20 });
    expect(solveOnce(engine, program)).toEqual(solveOnce(engine, program));
  },

  'sessions do not disturb each other': (engine) => {
    const [first, second] = [engine.open(programFrom(BOX)), engine.open(programFrom(BOX))];
    second.setRowBounds(0, 0, 1);
    expect(first.solve().primal).toEqual(Float64Array.of(4));
    expect(second.solve().primal).toEqual(Float64Array.of(1));
    first.close();
    expect(second.solve().primal).toEqual(Float64Array.of(1));
    second.close();
  },

  'the basis of one session starts another at its answer': (engine) => {
    const program = randomProgram(12, { columns: 30, rows: 20 });
    const first = engine.open(program);
    const reference = first.solve();
    const basis = first.basis();
    first.close();
    const columns = basis?.columns.filter((status) => status === 'basic').length ?? 0;
    const rows = basis?.rows.filter((status) => status === 'basic').length ?? 0;
    expect(columns + rows).toBe(20);
    const second = engine.open(program);
    second.startFrom(basis as NonNullable<typeof basis>);
    expect(second.solve().primal).toEqual(reference.primal);
    expect(second.basis()).toEqual(basis);
    second.close();
  },
};

const BOX = {
  sense: 'maximize',
  columns: { x: { cost: 1 } },
  rows: { limit: { upper: 4, terms: { x: 1 } } },
} as const;

/** Draws twenty changes of every kind, solving after each, and compares with the changed program solved afresh. */
function changeAndCompare(engine: Engine, seed: number): void {
  const random = randomFrom(seed + 1000);
  const program = randomProgram(seed, { columns: 12, rows: 9 });
  const mirror = mutableCopy(program);
  const session = engine.open(program);
  for (let step = 0; step < 20; step++) {
    changeOne(session, mirror, random);
    const answer = session.solve();
    const fresh = solveOnce(engine, mirror);
    expect(`${seed}.${step} ${answer.reason}`).toBe(`${seed}.${step} ${fresh.reason}`);
    if (answer.reason === 'optimal')
      expectOptimum(mirror, answer, objectiveAt(mirror, fresh.primal as Float64Array));
  }
  session.close();
}

function changeOne(session: Session, mirror: LinearProgram, random: () => number): void {
  const pick = (count: number) => Math.floor(random() * count);
  const column = pick(mirror.cost.length);
  const row = pick(mirror.rowLower.length);
  switch (pick(4)) {
    case 0: {
      mirror.cost[column] = pick(19) - 9;
      session.setCost(column, mirror.cost[column]);
      return;
    }
    case 1: {
      mirror.columnUpper[column] = Math.max(mirror.columnLower[column], 0) + pick(12);
      session.setColumnBounds(column, mirror.columnLower[column], mirror.columnUpper[column]);
      return;
    }
    case 2: {
      mirror.rowUpper[row] = Math.max(mirror.rowLower[row], 0) + pick(30);
      session.setRowBounds(row, mirror.rowLower[row], mirror.rowUpper[row]);
      return;
    }
    default: {
      const { starts, rows, values } = mirror.matrix;
      const k = pick(values.length);
      const at = starts.findLastIndex((start) => start <= k);
      values[k] = pick(9) - 3;
      session.setCoefficient(rows[k], at, values[k]);
    }
  }
}

function mutableCopy(program: LinearProgram): LinearProgram {
  return structuredClone({ ...program, columnKeys: [], rowKeys: [] });
}
