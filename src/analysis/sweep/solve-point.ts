import type { Formulation, PlanProgram } from '../../planning/formulate.js';
import { fewestMachineHours, optimalFace } from '../../planning/optimal-face.js';
import type { Plant } from '../../plant/plant.js';
import { type AffineChange, slopeAlong } from '../../program/affine-change.js';
import type { LinearProgram } from '../../program/linear-program.js';
import type { Evaluation } from '../../program/piecewise-linear.js';
import type { Certified, SolverAnswer } from '../../solver/answer.js';
import type { Solver } from '../../solver/choose.js';
import type { SolveLimits } from '../../solver/port.js';
import { openWarm, type WarmSolver } from '../../solver/warm-solver.js';
import { goOn, Unfinished } from '../unfinished.js';
import { planQuantities, type Quantity } from '../variant/plan-quantities.js';
import { type PlanTonnes, planTonnes } from '../variant/plan-tonnes.js';

export { Unfinished };

/** A certified optimum of the program at one value of the parameter. */
export interface SolvedPoint {
  readonly at: number;
  readonly program: PlanProgram;
  readonly primal: Float64Array;
  readonly rowDual: Float64Array;
  readonly value: number;
  /** Σ of the absolute money terms. */
  readonly scale: number;
}

/** What a plan does, in figures. */
export interface PointPlan {
  readonly quantities: readonly Quantity[];
  readonly tonnes: PlanTonnes;
}

/** Solves the linear programs of one analysis, each from the basis of the last, and counts them. */
export class PointSolver {
  /** Programs asked for the values of a curve. */
  solves = 0;
  /** Programs asked for telling plans apart. */
  planSolves = 0;
  private readonly curve: WarmSolver;
  private readonly plans: WarmSolver;

  constructor(
    readonly solver: Solver,
    private readonly limits: SolveLimits,
  ) {
    this.curve = openWarm(solver);
    this.plans = openWarm(solver);
  }

  /** Undefined where there is no feasible plan. @throws Unfinished */
  solve(program: PlanProgram, at: number): SolvedPoint | undefined {
    this.goOn();
    const solved = optimumOf(this.curve.solve(program, this.limits));
    if (solved === undefined) return undefined;
    const { answer, certificate, rowDual } = solved;
    const { objective: value, scale } = certificate;
    return { at, program, primal: answer.primal, rowDual, value, scale };
  }

  /** A program of another kind, solved by itself. @throws Unfinished */
  solveApart<R, C>(program: LinearProgram<R, C>): Certified<R, C> | undefined {
    this.goOn();
    return optimumOf(this.solver.solve(program, this.limits));
  }

  /** Of the plans of equal value one with the fewest machine-hours. */
  plan({ plant, columns }: Formulation, point: SolvedPoint): PointPlan {
    goOn(this.limits.cancelled);
    const face = optimalFace(point.program, point.primal, point.rowDual);
    const answer = this.plans.solve(fewestMachineHours(plant, columns, face), this.limits);
    this.planSolves += 1;
    const primal = answer.kind === 'solved' ? answer.answer.primal : point.primal;
    return planOf(plant, point.program, primal);
  }

  /** The point of a face that is best by what is preferred. @throws Unfinished */
  preferred(program: PlanProgram, at: number): SolvedPoint {
    goOn(this.limits.cancelled);
    this.planSolves += 1;
    const solved = optimumOf(this.plans.solve(program, this.limits));
    // A face that rounding has emptied: the caller goes without.
    if (solved === undefined) throw new RangeError('no point on the face of the best plans');
    const { answer, certificate, rowDual } = solved;
    return {
      at,
      program,
      primal: answer.primal,
      rowDual,
      value: certificate.objective,
      scale: certificate.scale,
    };
  }

  close(): void {
    this.curve.close();
    this.plans.close();
  }

  private goOn(): void {
    goOn(this.limits.cancelled);
    this.solves += 1;
  }
}

export function planOf(plant: Plant, program: PlanProgram, primal: Float64Array): PointPlan {
  return {
    quantities: planQuantities(program, primal),
    tonnes: planTonnes(plant, program.columnKeys, primal),
  };
}

function optimumOf<R, C>(answer: SolverAnswer<R, C>): Certified<R, C> | undefined {
  if (answer.kind === 'solved') return answer;
  if (answer.kind === 'infeasible') return undefined;
  const isCancelled = answer.kind === 'stopped' && answer.reason === 'cancelled';
  throw new Unfinished(isCancelled ? 'cancelled' : 'no certified answer');
}

/** The evaluation that a tracer needs of a solved point. */
export function evaluationOf(point: SolvedPoint, change: AffineChange): Evaluation<SolvedPoint> {
  return { at: point.at, value: point.value, slope: slopeAlong(point.program, change, point), from: point };
}
