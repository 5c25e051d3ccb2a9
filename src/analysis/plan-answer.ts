import type { Formulation } from '../planning/formulate.js';
import type { Plan } from '../planning/plan.js';
import type { Basis, EngineName } from '../solver/port.js';

/** What came of asking for the plan that earns the most. */
export type PlanAnswer = PlannedAnswer | { readonly status: 'infeasible' } | UnansweredAnswer;

export interface PlannedAnswer {
  /** `optimal`: proved within the tolerance, or within the gap asked for. `stopped`: the best plan when time ran out or the user stopped it. */
  readonly status: 'optimal' | 'stopped';
  readonly plan: Plan;
  readonly engine: { readonly name: EngineName; readonly version: string };
  readonly solves: number;
  /** With whole numbers only. */
  readonly whole?: WholeNumberGap;
  /** The program with its whole numbers held at the plan's, and the duals that the worths come from. */
  readonly solved: SolvedProgram;
}

/** Relative to the scale S of the statement. */
export interface WholeNumberGap {
  /** To the bound of the relaxation, proved by its duals. */
  readonly proved: number;
  readonly provedBound: number;
  /** To the engine's own bound: its word. */
  readonly claimed?: number;
  readonly claimedBound?: number;
}

export interface SolvedProgram {
  readonly formulation: Formulation;
  readonly primal: Float64Array;
  readonly rowDual: Float64Array;
  /** Where the largest margin was found, before machine-hours were made fewest; linear programs only. */
  readonly basis?: Basis;
}

export interface UnansweredAnswer {
  readonly status: 'no certified answer';
  /** What each engine came to, in words that name no internals. */
  readonly attempts: readonly { readonly engine: EngineName; readonly outcome: string }[];
}
