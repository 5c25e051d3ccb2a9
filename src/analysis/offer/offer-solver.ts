import { shortMonthsToTell } from '../../planning/declared-missed.js';
import type { Formulation, PlanProgram } from '../../planning/formulate.js';
import type { ColumnKey, RowKey } from '../../planning/keys.js';
import { fewestMachineHours, optimalFace } from '../../planning/optimal-face.js';
import { certifyPlan } from '../../planning/read/read-plan.js';
import { type Certificate, certify } from '../../program/certificate.js';
import { hasIntegers, type LinearProgram, withIntegersHeld } from '../../program/linear-program.js';
import type { Certified, SolverAnswer } from '../../solver/answer.js';
import type { Solver } from '../../solver/choose.js';
import type { SolveLimits } from '../../solver/port.js';
import { openWarm, type WarmSolver } from '../../solver/warm-solver.js';
import { WHOLE_NUMBER_GAP } from '../monthly-plan.js';
import { Unfinished } from '../sweep/solve-point.js';

/** A certified optimum. Money is present value. */
export interface Best {
  readonly formulation: Formulation;
  readonly primal: Float64Array;
  /** Of the program, with whole numbers of its relaxation. */
  readonly rowDual: Float64Array;
  readonly value: number;
  /** No plan is worth more: proved; with whole numbers the engine's word where it gave one. */
  readonly bound: number;
  /** Σ of the absolute money terms. */
  readonly scale: number;
  readonly certificate: Certificate<RowKey, ColumnKey>;
}

/**
 * Contracts whose months must be told apart by whole numbers: the program would declare tonnes missed that it
 * delivers. The question is to be asked again of a program that tells them.
 */
export class DeclaredMissed extends Error {
  override readonly name = 'DeclaredMissed';
  constructor(readonly contracts: ReadonlySet<string>) {
    super('tonnes declared missed are delivered');
  }
}

/** What counts as no difference in value, relative to the scale. */
export const VALUE_TOLERANCE = 1e-9;

/** Plans whose whole numbers are tried in other programs. */
const MOST_STAFFINGS = 6;

/** Whole numbers as they are, or only those that tell short months (shifts and windows in parts). */
export type Counting = 'whole' | 'in parts';

/** The program with the whole numbers that are counted. */
export function countedProgram(program: PlanProgram, counting: Counting): PlanProgram {
  if (counting === 'whole') return program;
  const integer = program.integer.map((flag, j) => (program.columnKeys[j].kind === 'short' ? flag : 0));
  return { ...program, integer };
}

/**
 * Solves the programs of one judgement, each from the basis of the last of its shape, and counts them.
 * Close it when done.
 */
export class OfferSolver {
  private readonly warm = new Map<string, WarmSolver>();
  private readonly integers = new WeakMap<Uint8Array, Uint8Array>();
  private readonly staffings = new Map<string, readonly Float64Array[]>();
  private apart = 0;

  constructor(
    private readonly solver: Solver,
    private readonly counting: Counting,
    private readonly limits: SolveLimits = {},
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
    const found = optimumOf(this.ask(program, shape));
    if (found === undefined) return undefined;
    const { primal } = found.answer;
    const declared = shortMonthsToTell(formulation.plant, formulation.columns, primal);
    if (declared.size > 0) throw new DeclaredMissed(declared);
    const { objective: value, bound: proved = Number.POSITIVE_INFINITY, scale } = found.certificate;
    const bound = Math.max(value, found.answer.bound ?? proved);
    const best: Best = {
      formulation: { ...formulation, program },
      primal,
      rowDual: found.rowDual,
      value,
      bound,
      scale,
      certificate: found.certificate,
    };
    if (!hasIntegers(program)) return best;
    const of = this.staffings.get(shape) ?? [];
    this.staffings.set(shape, [...of, primal].slice(-MOST_STAFFINGS));
    return this.improved(best, shape);
  }

  /**
   * With whole numbers: the best of this plan and of the same program with the whole numbers of every other plan
   * that was found for a program of its shape, so that two plans are not told apart by the luck of a stopped search.
   *
   * @throws Unfinished
   */
  improved(best: Best, shape: string): Best {
    const { program } = best.formulation;
    let better = best;
    for (const staffing of hasIntegers(program) ? (this.staffings.get(shape) ?? []) : []) {
      if (staffing === better.primal) continue;
      const found = this.ask(withIntegersHeld(program, staffing), `${shape} held`);
      if (found.kind !== 'solved') continue;
      const { primal } = found.answer;
      const certificate = certify(
        program,
        { primal, rowDual: best.rowDual },
        { gap: Number.POSITIVE_INFINITY },
      );
      const { objective: value, scale } = certificate;
      if (!certificate.accepted || value - better.value <= VALUE_TOLERANCE * scale) continue;
      if (shortMonthsToTell(best.formulation.plant, best.formulation.columns, primal).size > 0) continue;
      better = { ...best, primal, value, bound: Math.max(value, best.bound), scale, certificate };
    }
    return better;
  }

  /** A program of another kind, solved by itself. @throws Unfinished */
  alone<R, C>(program: LinearProgram<R, C>): Certified<R, C> | undefined {
    this.goOn();
    this.apart += 1;
    return optimumOf(this.solver.solve(program, this.limits));
  }

  /**
   * The same value with the fewest machine-hours, whole numbers held, and the duals that worths come from. The
   * point stands as it is where the second solve does not certify.
   *
   * @throws Unfinished
   */
  plainest(best: Best): Best {
    const program = hasIntegers(best.formulation.program)
      ? withIntegersHeld(best.formulation.program, best.primal)
      : best.formulation.program;
    const held = { ...best.formulation, program };
    let { primal, rowDual } = best;
    if (program !== best.formulation.program) {
      const solved = this.alone(program);
      if (solved === undefined) throw new Unfinished('no certified answer');
      primal = solved.answer.primal;
      rowDual = solved.rowDual;
    }
    primal = withinBounds(program, primal);
    const face = optimalFace(program, primal, rowDual);
    const answer = this.ask(fewestMachineHours(held.plant, held.columns, face), 'face');
    if (answer.kind === 'solved') {
      const fewest = withinBounds(program, answer.answer.primal);
      if (certifyPlan(held, { primal: fewest, rowDual }).accepted) primal = fewest;
    }
    return { ...best, formulation: held, primal, rowDual };
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

  private ask<R, C>(program: LinearProgram<R, C>, shape: string): SolverAnswer<R, C> {
    this.goOn();
    const warm = this.warm.get(shape) ?? openWarm(this.solver);
    this.warm.set(shape, warm);
    return warm.solve(program, { gap: WHOLE_NUMBER_GAP, ...this.limits });
  }

  private goOn(): void {
    if (this.limits.cancelled?.() === true) throw new Unfinished('cancelled');
  }
}

function optimumOf<R, C>(answer: SolverAnswer<R, C>): Certified<R, C> | undefined {
  if (answer.kind === 'solved') return answer;
  if (answer.kind === 'infeasible') return undefined;
  if (answer.kind === 'stopped' && answer.reason === 'time limit' && answer.best !== undefined) {
    return answer.best;
  }
  const isCancelled = answer.kind === 'stopped' && answer.reason === 'cancelled';
  throw new Unfinished(isCancelled ? 'cancelled' : 'no certified answer');
}

function withinBounds({ columnLower, columnUpper }: LinearProgram, primal: Float64Array): Float64Array {
  return primal.map((value, j) => Math.min(Math.max(value, columnLower[j]), columnUpper[j]));
}
