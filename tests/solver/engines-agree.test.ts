import { beforeAll, describe, expect, it } from 'vitest';
import { certify } from '../../src/program/certificate.js';
import { type LinearProgram, objectiveAt } from '../../src/program/linear-program.js';
import { loadHighs } from '../../src/solver/highs.js';
import { loadJavascriptLpSolver } from '../../src/solver/javascript-lp-solver.js';
import { type Engine, type EngineAnswer, EngineFailure, solveOnce } from '../../src/solver/port.js';
import { randomProgram } from './random-program.js';

const engines: Record<'highs' | 'small', Engine> = {} as Record<'highs' | 'small', Engine>;
beforeAll(async () => {
  engines.highs = await loadHighs();
  engines.small = await loadJavascriptLpSolver();
});

describe('both engines', () => {
  it('agree on 300 random linear programs, and each optimum certifies', () => {
    const tally = compare(300, (seed) =>
      randomProgram(seed, { columns: 3 + (seed % 12), rows: 2 + (seed % 9), contradictions: 0.05 }),
    );
    expect(tally).toMatchObject({ differ: [], uncertified: [], failed: [] });
    expect(tally.optimal).toBeGreaterThan(180);
    expect(tally.unbounded).toBeGreaterThan(20);
    expect(tally.infeasible).toBeGreaterThan(10);
  });

  it('agree on 100 random linear programs in units that differ by powers of ten', () => {
    const tally = compare(100, (seed) =>
      randomProgram(seed, { columns: 3 + (seed % 12), rows: 2 + (seed % 9), decades: 3 }),
    );
    expect(tally).toMatchObject({ differ: [], uncertified: [], failed: [] });
    expect(tally.optimal).toBeGreaterThan(50);
  });

  it('agree on 60 random programs with whole numbers', () => {
    const tally = compare(60, (seed) =>
      randomProgram(seed, { columns: 3 + (seed % 6), rows: 2 + (seed % 5), whole: 0.5 }),
    );
    expect(tally).toMatchObject({ differ: [], uncertified: [], failed: [] });
    expect(tally.optimal).toBeGreaterThan(50);
  });
});

interface Tally {
  optimal: number;
  unbounded: number;
  infeasible: number;
  differ: string[];
  uncertified: string[];
  failed: string[];
}

function compare(count: number, programOf: (seed: number) => LinearProgram): Tally {
  const tally: Tally = { optimal: 0, unbounded: 0, infeasible: 0, differ: [], uncertified: [], failed: [] };
  for (let seed = 1; seed <= count; seed++) {
    const program = programOf(seed);
    const reference = solveOnce(engines.highs, program);
    const other = orFailure(() => solveOnce(engines.small, program));
    if (other === undefined) {
      tally.failed.push(`seed ${seed}`);
      continue;
    }
    if (
      reference.reason === 'optimal' ||
      reference.reason === 'unbounded' ||
      reference.reason === 'infeasible'
    ) {
      tally[reference.reason]++;
    }
    const why = difference(program, reference, other);
    if (why !== undefined) tally.differ.push(`seed ${seed}: ${why}`);
    for (const [name, answer] of [
      ['highs', reference],
      ['small', other],
    ] as const) {
      if (answer.primal === undefined) continue;
      const certificate = certify(program, { primal: answer.primal, rowDual: answer.dual?.rowDual });
      if (!certificate.accepted)
        tally.uncertified.push(`seed ${seed} ${name}: ${certificate.failures.join()}`);
    }
  }
  return tally;
}

function difference(program: LinearProgram, a: EngineAnswer, b: EngineAnswer): string | undefined {
  if (a.reason !== b.reason) return `${a.reason} against ${b.reason}`;
  if (a.primal === undefined || b.primal === undefined) return undefined;
  const [first, second] = [objectiveAt(program, a.primal), objectiveAt(program, b.primal)];
  return Math.abs(first - second) > 1e-6 * (1 + Math.abs(first)) ? `${first} against ${second}` : undefined;
}

function orFailure(solve: () => EngineAnswer): EngineAnswer | undefined {
  try {
    return solve();
  } catch (error) {
    if (error instanceof EngineFailure) return undefined;
    throw error;
  }
}
