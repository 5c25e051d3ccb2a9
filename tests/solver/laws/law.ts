import { expect } from 'vitest';
import { certify } from '../../../src/program/certificate.js';
import { type LinearProgram, objectiveAt } from '../../../src/program/linear-program.js';
import { type Engine, type EngineAnswer, type SolveLimits, solveOnce } from '../../../src/solver/port.js';
import { type ModelJson, programFrom } from '../model-json.js';

/** A law of the port: fails its assertions on an engine that breaks it. */
export type Law = (engine: Engine) => void;

export function solveModel(engine: Engine, model: ModelJson, limits?: SolveLimits): EngineAnswer {
  return solveOnce(engine, programFrom(model), limits);
}

/** Asserts an optimum of this objective (relative 1e-9) whose point, and duals if any, certify. */
export function expectOptimum(program: LinearProgram, answer: EngineAnswer, objective: number): void {
  expect(answer.reason).toBe('optimal');
  const primal = answer.primal as Float64Array;
  expect(Math.abs(objectiveAt(program, primal) - objective)).toBeLessThanOrEqual(
    1e-9 * (1 + Math.abs(objective)),
  );
  expect(certify(program, { primal, rowDual: answer.dual?.rowDual }).failures).toEqual([]);
}

export function expectModelOptimum(engine: Engine, model: ModelJson, objective: number): EngineAnswer {
  const program = programFrom(model);
  const answer = solveOnce(engine, program);
  expectOptimum(program, answer, objective);
  return answer;
}

/** To six decimals, without negative zeros. */
export function rounded(values: Float64Array | undefined): number[] {
  return [...(values ?? [])].map((value) => Math.round(value * 1e6) / 1e6 + 0);
}
