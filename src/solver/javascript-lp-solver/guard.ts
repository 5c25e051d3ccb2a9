import type { SolveLimits } from '../port.js';
import type { LpModel, Tableau } from './package.js';

export type StopCause =
  | 'time limit'
  | 'cancelled'
  | 'gap reached'
  | 'relaxation unbounded'
  | 'too many pivots'
  | 'too many nodes';

/** Thrown out of the package in the middle of a solve; it leaves no shared state behind. */
export class Stopped extends Error {
  constructor(readonly why: StopCause) {
    super(why);
  }
}

/** What the guard needs to know of the program: its size and its objective at the tableau's point. */
export interface Guarded {
  readonly model: LpModel;
  readonly whole: boolean;
  /** The program's objective where the tableau stands. */
  objective(tableau: Tableau): number;
  readPrimal(): Float64Array;
}

export interface Incumbent {
  readonly primal: Float64Array;
  readonly objective: number;
}

/** A search that dives along an unbounded column has no end, and keeps every node in memory. */
const LARGEST_SEARCH = 500_000;

const PIVOTS_BETWEEN_POLLS = 32;
const SECONDS_BETWEEN_REPORTS = 0.1;

/**
 * The package's first phase can cycle for ever, and its own time limit is only looked at between nodes.
 * The guard hangs itself into the tableau: it counts the pivots of each linear program, looks at the clock
 * and the cancel signal, and keeps the best whole-number point, so that a stop does not lose it.
 */
export class PivotGuard {
  private readonly started = performance.now();
  private readonly pivotBudget: number;
  private pivots = 0;
  private nodes = 0;
  private reported = Number.NEGATIVE_INFINITY;
  /** The objective of the first node: no whole-number point is better. */
  rootBound: number | undefined;
  incumbent: Incumbent | undefined;

  constructor(
    private readonly guarded: Guarded,
    private readonly limits: SolveLimits,
  ) {
    const { nVariables, nConstraints } = guarded.model;
    this.pivotBudget = 1000 + 10 * (nVariables + nConstraints);
  }

  /** Sets the hooks; the package calls all three methods through the object. */
  install(): void {
    const { tableau } = this.guarded.model;
    const original = { pivot: tableau.pivot, simplex: tableau.simplex, isIntegral: tableau.isIntegral };
    tableau.pivot = (row, column) => {
      this.beforePivot();
      original.pivot.call(tableau, row, column);
    };
    tableau.simplex = () => {
      this.beforeSimplex();
      original.simplex.call(tableau);
      this.afterSimplex(tableau);
      return tableau;
    };
    tableau.isIntegral = () => {
      const integral = original.isIntegral.call(tableau);
      if (integral) this.keep(tableau);
      return integral;
    };
  }

  private beforeSimplex(): void {
    this.pivots = 0;
    this.nodes++;
    if (this.nodes > LARGEST_SEARCH) throw new Stopped('too many nodes');
    this.poll();
  }

  private beforePivot(): void {
    this.pivots++;
    if (this.pivots > this.pivotBudget) throw new Stopped('too many pivots');
    if (this.pivots % PIVOTS_BETWEEN_POLLS === 0) this.poll();
  }

  private afterSimplex(tableau: Tableau): void {
    if (!this.guarded.whole) return;
    if (this.rootBound === undefined && tableau.feasible) {
      if (!tableau.bounded) throw new Stopped('relaxation unbounded');
      this.rootBound = this.guarded.objective(tableau);
    }
    this.report();
  }

  private keep(tableau: Tableau): void {
    const objective = this.guarded.objective(tableau);
    this.incumbent = { primal: this.guarded.readPrimal(), objective };
    const gap = Math.abs(objective - (this.rootBound ?? objective));
    if (gap === 0) return;
    const allowed = Math.max((this.limits.gap ?? 0) * Math.abs(objective), this.limits.absoluteGap ?? 0);
    if (gap <= allowed) throw new Stopped('gap reached');
  }

  private poll(): void {
    if (this.limits.cancelled?.() === true) throw new Stopped('cancelled');
    if (this.limits.seconds !== undefined && this.elapsed() >= this.limits.seconds)
      throw new Stopped('time limit');
  }

  private report(): void {
    const { onProgress } = this.limits;
    const seconds = this.elapsed();
    if (onProgress === undefined || this.rootBound === undefined) return;
    if (seconds - this.reported < SECONDS_BETWEEN_REPORTS) return;
    this.reported = seconds;
    const bound = this.rootBound;
    const best = this.incumbent?.objective;
    if (best === undefined) onProgress({ seconds, bound });
    else if (best === 0) onProgress({ seconds, bound, best });
    else onProgress({ seconds, bound, best, gap: Math.abs(bound - best) / Math.abs(best) });
  }

  private elapsed(): number {
    return (performance.now() - this.started) / 1000;
  }
}
