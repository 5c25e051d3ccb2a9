import { shortMonthsToTell } from '../../planning/declared-missed.js';
import type { Formulation, PlanProgram } from '../../planning/formulate.js';
import { certify } from '../../program/certificate.js';
import { hasIntegers, type LinearProgram, relaxed, withIntegersHeld } from '../../program/linear-program.js';
import type { Certified, SolverAnswer } from '../../solver/answer.js';
import type { Solver } from '../../solver/choose.js';
import type { SolveLimits } from '../../solver/port.js';
import { openWarm, type WarmSolver } from '../../solver/warm-solver.js';
import { WHOLE_NUMBER_GAP } from '../monthly-plan.js';
import { Unfinished } from '../unfinished.js';
import { type Best, bestOf, isWithoutPlan, optimumOf, VALUE_TOLERANCE } from './best.js';
import { type Counting, countedProgram } from './counting.js';
import { DeclaredMissed } from './declared-missed.js';
import { type HeldPlan, searchedStaffing } from './staffing-search.js';
import { Staffings } from './staffings.js';

/** How far the solves of an answer may go. */
export interface OfferLimits extends SolveLimits {
  /** Seconds left for all solves with whole numbers together. */
  readonly secondsLeft?: () => number;
}

/** Of the time that is left: the first solves, on which all others lean, have the most. */
const PART_OF_TIME = 1 / 3;
/** A solve finds its bound in this time, or hardly in a longer one. */
const LEAST_SECONDS = 0.7;

/**
 * Solves the programs of one judgement, each from the basis of the last of its shape, and counts them.
 * Close it when done.
 */
export class OfferSolver {
  private readonly warm = new Map<string, WarmSolver>();
  private readonly integers = new WeakMap<Uint8Array, Uint8Array>();
  private readonly staffings = new Staffings();
  private apart = 0;

  constructor(
    private readonly solver: Solver,
    private readonly counting: Counting,
    private readonly limits: OfferLimits = {},
  ) {}

  get solves(): number {
    return [...this.warm.values()].reduce((sum, { solves }) => sum + solves, this.apart);
  }

  /**
   * Undefined where there is no feasible plan. Programs of one shape share a name.
   *
   * @throws Unfinished, DeclaredMissed
   */
  best(formulation: Formulation, shape: string): Best | undefined {
    const program = this.counted(formulation.program);
    const counted = { ...formulation, program };
    const first = hasIntegers(program) ? this.firstPlan(counted, shape) : undefined;
    const answer = this.solve(program, shape, first?.primal);
    if (first !== undefined && isWithoutPlan(answer)) return first;
    const found = optimumOf(answer);
    if (found === undefined) return undefined;
    const { primal } = found.answer;
    const declared = shortMonthsToTell(formulation.plant, formulation.columns, primal);
    if (declared.size > 0) throw new DeclaredMissed(declared);
    const best = bestOf(counted, found);
    if (!hasIntegers(program)) return best;
    this.staffings.add(shape, program, primal);
    return this.improved(best, shape);
  }

  /**
   * With whole numbers, without a search: the best plan with the whole numbers of a plan that was found for a
   * program of its shape, and the bound of the relaxation. Undefined where none is feasible.
   *
   * @throws Unfinished, DeclaredMissed
   */
  lent(formulation: Formulation, shape: string): Best | undefined {
    const relaxation = this.relaxation({ ...formulation, program: this.counted(formulation.program) }, shape);
    return relaxation === undefined ? undefined : planOf(this.improved(relaxation, shape));
  }

  /**
   * With whole numbers: the best of this plan and of the same program with the whole numbers of every other plan
   * that was found for a program of its shape, so that two plans are not told apart by the luck of a stopped search.
   *
   * @throws Unfinished
   */
  improved(best: Best, shape: string): Best {
    const { program } = best.formulation;
    if (!hasIntegers(program)) return best;
    return this.staffings
      .held(shape, program, best.primal)
      .reduce((better, held) => this.better(better, this.hold(best.formulation, held, shape)), best);
  }

  /** A program of another kind, solved by itself. @throws Unfinished */
  alone<R, C>(program: LinearProgram<R, C>): Certified<R, C> | undefined {
    this.goOn();
    this.apart += 1;
    return optimumOf(this.solver.solve(program, this.limitsFor(program)));
  }

  close(): void {
    for (const warm of this.warm.values()) warm.close();
  }

  /** The program with the whole numbers that this solver counts. */
  counted(program: PlanProgram): PlanProgram {
    const integer = this.integers.get(program.integer);
    if (integer !== undefined) return { ...program, integer };
    const counted = countedProgram(program, this.counting);
    this.integers.set(program.integer, counted.integer);
    return counted;
  }

  /** Warm from the last program of the same name. @throws Unfinished */
  solve<R, C>(program: LinearProgram<R, C>, shape: string, start?: Float64Array): SolverAnswer<R, C> {
    this.goOn();
    const warm = this.warm.get(shape) ?? openWarm(this.solver);
    this.warm.set(shape, warm);
    const limits = { gap: WHOLE_NUMBER_GAP, ...this.limitsFor(program) };
    return warm.solve(program, start === undefined ? limits : { ...limits, start });
  }

  /** The relaxation's duals and bound, and no plan yet: a value below all. */
  private relaxation(formulation: Formulation, shape: string): Best | undefined {
    const found = optimumOf(this.solve(relaxed(formulation.program), `${shape} relaxed`));
    return found === undefined ? undefined : { ...bestOf(formulation, found), value: NO_PLAN };
  }

  /**
   * With whole numbers, without a search by the engine: the relaxation rounded, or a plan with the whole numbers
   * of another one, made better step by step. Undefined where there is none.
   *
   * @throws Unfinished
   */
  firstPlan(asked: Formulation, shape: string): Best | undefined {
    const program = this.counted(asked.program);
    const formulation = { ...asked, program };
    const relaxation = this.relaxation(formulation, shape);
    if (relaxation === undefined) return undefined;
    const hold = (staffing: Float64Array) =>
      this.hold(formulation, withIntegersHeld(program, staffing), shape);
    const rounded = [relaxation.primal, roundedUp(program, relaxation.primal)].flatMap(
      (point) => hold(point) ?? [],
    );
    const candidates = [
      ...rounded,
      ...this.staffings.held(shape, program).flatMap((held) => this.hold(formulation, held, shape) ?? []),
    ];
    const [nearest] = candidates.sort((a, b) => b.value - a.value);
    if (nearest === undefined) return undefined;
    const best = planOf(this.better(relaxation, searchedStaffing(program, nearest, hold)));
    if (best !== undefined) this.staffings.add(shape, program, best.primal);
    return best;
  }

  /** The best plan of a program whose whole numbers are held, where it declares no tonnes missed that it delivers. */
  private hold({ plant, columns }: Formulation, held: PlanProgram, shape: string): HeldPlan | undefined {
    const found = this.solve(held, `${shape} held`);
    if (found.kind !== 'solved') return undefined;
    const { primal } = found.answer;
    if (shortMonthsToTell(plant, columns, primal).size > 0) return undefined;
    return { primal, rowDual: found.rowDual, value: found.certificate.objective };
  }

  /** The better of a plan and a held one, which is certified as a plan of the program itself. */
  private better(best: Best, held: HeldPlan | undefined): Best {
    if (held === undefined || held.value - best.value <= VALUE_TOLERANCE * best.scale) return best;
    const { primal } = held;
    const point = { primal, rowDual: best.rowDual };
    const certificate = certify(best.formulation.program, point, { gap: Number.POSITIVE_INFINITY });
    if (!certificate.accepted) return best;
    const { objective: value, scale } = certificate;
    return { ...best, primal, value, bound: Math.max(value, best.bound), scale, certificate };
  }

  /** A solve with whole numbers takes its part of the time that is left for all of them. */
  private limitsFor(program: LinearProgram): SolveLimits {
    const { secondsLeft, ...limits } = this.limits;
    if (secondsLeft === undefined || !hasIntegers(program)) return limits;
    const seconds = Math.max(LEAST_SECONDS, PART_OF_TIME * secondsLeft());
    return { ...limits, seconds: Math.min(limits.seconds ?? seconds, seconds) };
  }

  private goOn(): void {
    if (this.limits.cancelled?.() === true) throw new Unfinished('cancelled');
  }
}

const NO_PLAN = Number.NEGATIVE_INFINITY;

function planOf(best: Best): Best | undefined {
  return best.value === NO_PLAN ? undefined : best;
}

/** More people than in parts: what the relaxation does can be done. */
function roundedUp({ integer }: LinearProgram, point: Float64Array): Float64Array {
  return point.map((value, j) => (integer[j] === 1 ? Math.ceil(value - WHOLE) : value));
}

/** A figure so near to a whole number is one. */
const WHOLE = 1e-6;
