import { existsSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { certify } from '../../src/program/certificate.js';
import { objectiveAt } from '../../src/program/linear-program.js';
import { createSolver } from '../../src/solver/choose.js';
import { loadHighs } from '../../src/solver/highs.js';
import { loadJavascriptLpSolver } from '../../src/solver/javascript-lp-solver.js';
import { type Engine, EngineFailure, solveOnce } from '../../src/solver/port.js';
import { readMps } from '../solver/read-mps.js';

/** Open test problems in MPS, kept beside the project and not in it. */
const root = resolve(import.meta.dirname, '..', '..');
const folder = resolve(root, '..', 'shared', 'lp-data');
const read = (file: string) => readMps(readFileSync(resolve(folder, file), 'utf8'));

if (existsSync(folder)) describe('open collections', describeCollections);
else
  it.skip('open collections: skipped, since the folder shared/lp-data is not beside the project', () => {});

function describeCollections(): void {
  let highs: Engine;
  let small: Engine;
  beforeAll(async () => {
    [highs, small] = await Promise.all([loadHighs(), loadJavascriptLpSolver()]);
  });

  /** Netlib LP; optima from the readme of the collection, twelve digits. */
  it.each([
    ['afiro.mps', -464.75314286],
    ['adlittle.mps', 225494.96316],
  ])('Netlib %s: both engines find the published optimum, certified', (file, published) => {
    const program = read(file);
    for (const engine of [highs, small]) {
      const { primal, dual } = solveOnce(engine, program);
      const objective = objectiveAt(program, primal as Float64Array);
      expect(Math.abs(objective - published)).toBeLessThan(1e-10 * Math.abs(published));
      expect(certify(program, { primal: primal as Float64Array, rowDual: dual?.rowDual }).failures).toEqual(
        [],
      );
    }
  });

  /** Netlib infeasible LP. */
  it.each(['galenet.mps', 'woodinfe.mps'])(
    'Netlib %s: infeasible, and neither engine finds a plan',
    (file) => {
      const program = read(file);
      expect(solveOnce(highs, program)).toEqual({ reason: 'infeasible' });
      expect(reasonOrFailure(small, program)).toMatch(/^(infeasible|failed)$/);
      expect(createSolver([small, highs]).solve(program)).toMatchObject({
        kind: 'infeasible',
        engine: 'highs',
      });
    },
  );

  /** MIPLIB; optima from memory. */
  it.each([
    ['flugpl.mps', 1201500],
    ['lseu.mps', 1120],
  ])('MIPLIB %s: the published optimum, its gap proved from the relaxation', (file, published) => {
    const answer = createSolver([highs, small]).solve(read(file));
    expect(answer.kind).toBe('solved');
    if (answer.kind !== 'solved') return;
    expect(answer.certificate.objective).toBeCloseTo(published, 5);
    expect(answer.certificate.bound).toBeLessThanOrEqual(published);
    expect(answer.answer.bound).toBeCloseTo(published, 5);
  });
}

function reasonOrFailure(engine: Engine, program: ReturnType<typeof read>): string {
  try {
    return solveOnce(engine, program).reason;
  } catch (error) {
    if (error instanceof EngineFailure) return 'failed';
    throw error;
  }
}
