import { describe, expect, it } from 'vitest';
import { ProgramBuilder } from '../../src/program/builder.js';
import { certify } from '../../src/program/certificate.js';
import type { LinearProgram } from '../../src/program/linear-program.js';
import { loadJavascriptLpSolver } from '../../src/solver/javascript-lp-solver.js';
import { type Engine, EngineFailure, solveOnce } from '../../src/solver/port.js';
import { describeContract } from './contract.js';
import { programFrom } from './model-json.js';
import { denseProgram, randomProgram } from './random-program.js';

describeContract('javascript-lp-solver', loadJavascriptLpSolver, {
  'the basis of one session starts another at its answer': {
    reason: 'it solves from scratch and keeps no basis',
    instead: (engine) => {
      const session = engine.open(randomProgram(12, { columns: 30, rows: 20 }));
      expect(session.solve().reason).toBe('optimal');
      expect(session.basis()).toBeUndefined();
      session.close();
    },
  },
  'four dense programs of sixty columns and rows are solved': {
    reason: 'its first phase repeats itself for ever on most of them, and the guard gives up',
    instead: (engine) => {
      const outcomes = [1, 2, 3, 4].map((seed) => outcomeOf(engine, denseProgram(seed, 60, 60)));
      expect(outcomes.filter((outcome) => outcome === 'gave up').length).toBeGreaterThan(0);
      expect(outcomes.filter((outcome) => outcome !== 'gave up' && outcome !== 'certified')).toEqual([]);
    },
  },
});

describe('javascript-lp-solver', () => {
  it('gives up a search that has no end before it fills the memory', async () => {
    // min −x over whole numbers with 2x − 2y = 1: no whole number will do, and no bound says so.
    const program = programFrom({
      sense: 'maximize',
      columns: { x: { integer: true }, y: { integer: true } },
      rows: { odd: { equal: 1, terms: { x: 2, y: -2 } } },
    });
    const engine = await loadJavascriptLpSolver();
    expect(() => solveOnce(engine, program)).toThrow(/too many nodes/);
  });

  it('refuses a program whose dense table would not fit the memory', async () => {
    const builder = new ProgramBuilder<number, number>();
    for (let i = 0; i < 8000; i++)
      builder.add(builder.row(i, { upper: 1 }), builder.column(i, { cost: 1 }), 1);
    const engine = await loadJavascriptLpSolver();
    expect(() => solveOnce(engine, builder.build())).toThrow(/too large/);
  });
});

/** Each within three seconds of computing. */
function outcomeOf(engine: Engine, program: LinearProgram): string {
  const started = process.cpuUsage().user;
  try {
    const { reason, primal, dual } = solveOnce(engine, program);
    if (primal === undefined) return reason;
    return certify(program, { primal, rowDual: dual?.rowDual }).accepted ? 'certified' : 'uncertified';
  } catch (error) {
    if (error instanceof EngineFailure) return 'gave up';
    throw error;
  } finally {
    expect((process.cpuUsage().user - started) / 1e6).toBeLessThan(3);
  }
}
