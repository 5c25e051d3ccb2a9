import { formulate } from '../../planning/formulate.js';
import type { Plant } from '../../plant/plant.js';
import type { Solver } from '../../solver/choose.js';
import { Unfinished } from '../unfinished.js';
import { bestOfAllSets } from './all-sets.js';
import { bestByBranching } from './branched-sets.js';
import { type Counting, hasShifts } from './counting.js';
import { DeclaredMissed } from './declared-missed.js';
import { type OfferLimits, OfferSolver } from './offer-solver.js';
import { SetPrograms } from './set-programs.js';

/** Which of several offers to sign. Money is present value. */
export type OfferSetsAnswer =
  | OfferSets
  | { readonly status: 'infeasible' | 'no certified answer' | 'cancelled' };

export interface OfferSets {
  readonly status: 'chosen';
  readonly best: SignedSet;
  /** The best of the other sets; absent where no other can be kept. */
  readonly runnerUp?: SignedSet;
  /** With whole shifts: other sets that may be better, as far as the solves tell. The likeliest first. */
  readonly undecided: readonly OpenSet[];
  /** Nothing signed; absent where that has no plan. */
  readonly none?: number;
  /** For each offer of the best set: what is lost without it; absent where there is no plan without it. */
  readonly losses: readonly ({ readonly offer: string; readonly loss?: number } & OpenFigure)[];
  /** For each other offer: what is lost by signing it too, the others chosen anew; absent where it cannot be kept. */
  readonly costs: readonly ({ readonly offer: string; readonly cost?: number } & OpenFigure)[];
  /** Whether all sets were tried, or the whole-number solver chose among them. */
  readonly manner: 'all sets' | 'whole numbers';
  /** Of shifts and windows; absent where none are whole. */
  readonly counting?: Counting;
  readonly solves: number;
}

/** With whole shifts: what the solves leave open of a loss. */
export interface OpenFigure {
  readonly low?: number;
  readonly high?: number;
}

export interface SignedSet {
  /** In the order of ids. */
  readonly offers: readonly { readonly offer: string; readonly share: number }[];
  readonly value: number;
  /** No plan with this set is worth more; with whole numbers the engine's word where it gave one. */
  readonly bound: number;
  /** Σ of the absolute money terms. */
  readonly scale: number;
}

export type OpenSet = Pick<SignedSet, 'offers' | 'bound'>;

export interface SetsRequest {
  /** Ids of contracts of the plant that are offers. */
  readonly offers: readonly string[];
  /** Those of them that may be signed in part. */
  readonly divisible: ReadonlySet<string>;
  /** Up to so many yes-or-no offers all sets are tried. */
  readonly allSetsUpTo?: number;
  readonly counting: Counting;
}

/** What a way of choosing finds. */
export type ChosenSets = Omit<OfferSets, 'status' | 'counting' | 'solves'>;

/** 2⁸ sets: more take too long. */
const MOST_TRIED = 8;

/**
 * The set of offers that earns the most, each signed or not (or to a share, where the buyer allows it). Up to 8 of
 * them all sets are tried, each a certified plan; beyond, the shares are whole-number columns.
 */
export function bestSet(
  plant: Plant,
  request: SetsRequest,
  solver: Solver,
  limits: OfferLimits = {},
): OfferSetsAnswer {
  const tell = new Set<string>();
  for (;;) {
    const formulation = formulate(plant, { tellShortMonths: tell });
    const programs = new SetPrograms(formulation, request);
    const inParts = new OfferSolver(solver, 'in parts', limits);
    const shifts = hasShifts(formulation.program);
    const whole = shifts && request.counting === 'whole' ? new OfferSolver(solver, 'whole', limits) : inParts;
    try {
      const isTried = programs.yesNo.length <= (request.allSetsUpTo ?? MOST_TRIED);
      const chosen = isTried ? bestOfAllSets(programs, { inParts, whole }) : bestByBranching(programs, whole);
      if (chosen === undefined) return { status: 'infeasible' };
      const solves = inParts.solves + (whole === inParts ? 0 : whole.solves);
      return { status: 'chosen', ...chosen, ...(shifts ? { counting: request.counting } : {}), solves };
    } catch (error) {
      if (error instanceof DeclaredMissed) for (const id of error.contracts) tell.add(id);
      else if (error instanceof Unfinished) return { status: error.reason };
      else throw error;
    } finally {
      inParts.close();
      whole.close();
    }
  }
}
