import { withoutCalendarBounds } from '../../src/analysis/limits/without-calendar-bounds.js';
import { planMonths } from '../../src/analysis/monthly-plan.js';
import type { PlannedAnswer } from '../../src/analysis/plan-answer.js';
import type { Formulation, PlanProgram } from '../../src/planning/formulate.js';
import { derivePlant } from '../../src/plant/derive-plant.js';
import { type AffineChange, changed } from '../../src/program/affine-change.js';
import { objectiveAt } from '../../src/program/linear-program.js';
import type { Solver } from '../../src/solver/choose.js';
import { openWarm, type WarmSolver } from '../../src/solver/warm-solver.js';
import { type GeneratorOptions, generateScenario } from '../generate/plant.js';

/** A planned generated plant, and a solver of its own for variants of its program. */
export interface ExplainCase {
  readonly seed: number;
  readonly answer: PlannedAnswer;
  readonly formulation: Formulation;
  readonly scale: number;
  readonly value: number;
  /** The optimal value of a variant; undefined where nothing is feasible, Infinity where nothing bounds it. */
  optimumOf(variant: PlanProgram): number | undefined;
  valueAt(change: AffineChange, theta: number): number | undefined;
  close(): void;
}

export function explainCase(seed: number, solver: Solver, options: GeneratorOptions = {}): ExplainCase {
  const plant = derivePlant(generateScenario(seed, options));
  const answer = planMonths(plant, solver);
  if (!('solved' in answer)) throw new Error(`seed ${seed}: ${answer.status}`);
  const formulation = withoutCalendarBounds(answer.solved.formulation);
  const warm: WarmSolver = openWarm(solver);
  const optimumOf = (variant: PlanProgram) => {
    const found = warm.solve(variant);
    if (found.kind === 'infeasible') return undefined;
    if (found.kind === 'unbounded') return Number.POSITIVE_INFINITY;
    if (found.kind !== 'solved') throw new Error(`seed ${seed}: a variant is ${found.kind}`);
    return objectiveAt(variant, found.answer.primal);
  };
  return {
    seed,
    answer,
    formulation,
    scale: answer.plan.statement.scale,
    value: objectiveAt(formulation.program, answer.solved.primal),
    optimumOf,
    valueAt: (change, theta) => optimumOf(changed(formulation.program, change, theta)),
    close: () => warm.close(),
  };
}
