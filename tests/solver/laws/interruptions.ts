import { expect } from 'vitest';
import { objectiveAt } from '../../../src/program/linear-program.js';
import { type SolveProgress, solveOnce } from '../../../src/solver/port.js';
import { randomProgram } from '../random-program.js';
import { hardKnapsacks } from './hard-knapsacks.js';
import type { Law } from './law.js';

export const interruptionLaws: Readonly<Record<string, Law>> = {
  'a time limit is kept, to within seconds on the busiest machine': (engine) => {
    const started = performance.now();
    const answer = solveOnce(engine, hardKnapsacks(100), { seconds: 0.4 });
    expect((performance.now() - started) / 1000).toBeLessThan(5);
    expect(answer.reason).toBe('time limit');
    expect(answer.dual).toBeUndefined();
  },

  'no time at all ends at once': (engine) => {
    expect(solveOnce(engine, hardKnapsacks(), { seconds: 0 }).reason).toBe('time limit');
  },

  'a cancel signal stops a whole-number solve, which keeps its best point': (engine) => {
    const program = hardKnapsacks();
    let found = false;
    let polls = 0;
    const answer = solveOnce(engine, program, {
      onProgress: ({ best }) => {
        found ||= best !== undefined;
      },
      // An engine that reports nothing for so long is stopped whatever it holds: the machine's speed decides nothing.
      cancelled: () => found || ++polls > 200,
    });
    expect(answer.reason).toBe('cancelled');
    expect(found && answer.primal === undefined).toBe(false);
    if (answer.primal === undefined) return;
    expect(answer.primal.every((value) => Math.abs(value - Math.round(value)) < 1e-9)).toBe(true);
    expect(objectiveAt(program, answer.primal)).toBeLessThanOrEqual(answer.bound as number);
  },

  'a signal that is given before the solve stops it': (engine) => {
    expect(solveOnce(engine, hardKnapsacks(), { cancelled: () => true })).toEqual({ reason: 'cancelled' });
  },

  'a cancel signal stops a linear program': (engine) => {
    let polls = 0;
    const program = randomProgram(5, { columns: 120, rows: 80 });
    expect(solveOnce(engine, program, { cancelled: () => ++polls > 2 })).toEqual({ reason: 'cancelled' });
  },

  'progress tells a bound that no reported point exceeds': (engine) => {
    const reports: SolveProgress[] = [];
    solveOnce(engine, hardKnapsacks(), {
      onProgress: (progress) => reports.push(progress),
      cancelled: () => reports.length > 4,
      seconds: 20,
    });
    expect(reports.length).toBeGreaterThan(1);
    for (const { bound, best } of reports)
      expect(best ?? bound).toBeLessThanOrEqual(bound + 1e-9 * Math.abs(bound));
    const seconds = reports.map((report) => report.seconds);
    expect(seconds).toEqual(seconds.toSorted((a, b) => a - b));
  },

  'what a callback throws comes out of the solve, and the engine goes on': (engine) => {
    const thrown = new Error('from the caller');
    const throwing = () => {
      throw thrown;
    };
    expect(() => solveOnce(engine, hardKnapsacks(), { onProgress: throwing, seconds: 5 })).toThrow(thrown);
    expect(solveOnce(engine, randomProgram(1, { columns: 5, rows: 4 })).reason).toBe('optimal');
  },

  'a gap lets a whole-number solve stop early, and the bound says how early': (engine) => {
    const program = hardKnapsacks();
    const answer = solveOnce(engine, program, { gap: 0.3, seconds: 20 });
    expect(answer.reason).toBe('optimal');
    const objective = objectiveAt(program, answer.primal as Float64Array);
    expect(answer.bound as number).toBeGreaterThanOrEqual(objective);
    expect((answer.bound as number) - objective).toBeLessThanOrEqual(0.3 * Math.abs(objective));
  },

  'an absolute gap stops early too, whatever the objective is': (engine) => {
    const program = { ...hardKnapsacks(), offset: -800 };
    const answer = solveOnce(engine, program, { absoluteGap: 200, seconds: 20 });
    expect(answer.reason).toBe('optimal');
    const objective = objectiveAt(program, answer.primal as Float64Array);
    expect((answer.bound as number) - objective).toBeGreaterThan(0);
    expect((answer.bound as number) - objective).toBeLessThanOrEqual(200);
  },

  'each solve of a session has the whole time limit': (engine) => {
    const session = engine.open(hardKnapsacks(100));
    session.solve({ seconds: 0.3 });
    const started = performance.now();
    expect(session.solve({ seconds: 0.3 }).reason).toBe('time limit');
    expect(performance.now() - started).toBeGreaterThan(250);
    session.close();
  },
};
