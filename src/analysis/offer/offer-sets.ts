import { shortMonthsToTell } from '../../planning/declared-missed.js';
import { type Formulation, formulate } from '../../planning/formulate.js';
import type { Plant } from '../../plant/plant.js';
import { hasIntegers, type LinearProgram } from '../../program/linear-program.js';
import type { Solver } from '../../solver/choose.js';
import type { SolveLimits } from '../../solver/port.js';
import { openWarm, type WarmSolver } from '../../solver/warm-solver.js';
import { WHOLE_NUMBER_GAP } from '../monthly-plan.js';
import { Unfinished } from '../sweep/solve-point.js';
import { VALUE_TOLERANCE } from './best.js';
import { type Counting, countedProgram } from './counting.js';
import { type SharedProgram, type TakeKey, withShares } from './signed-shares.js';
import { withoutSet } from './without-set.js';

/** Which of several offers to sign. Money is present value. */
export type OfferSetsAnswer =
  | OfferSets
  | { readonly status: 'infeasible' | 'no certified answer' | 'cancelled' };

export interface OfferSets {
  readonly status: 'chosen';
  readonly best: SignedSet;
  /** The best of the other sets; absent where no other can be kept. */
  readonly runnerUp?: SignedSet;
  /** Nothing signed; absent where that has no plan. */
  readonly none?: number;
  /** For each offer of the best set: what is lost without it; absent where there is no plan without it. */
  readonly losses: readonly { readonly offer: string; readonly loss?: number }[];
  /** For each other offer: what is lost by signing it too, the others chosen anew; absent where it cannot be kept. */
  readonly costs: readonly { readonly offer: string; readonly cost?: number }[];
  /** Whether all sets were tried, or the whole-number solver chose among them. */
  readonly manner: 'all sets' | 'whole numbers';
  readonly solves: number;
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

export interface SetsRequest {
  /** Ids of contracts of the plant that are offers. */
  readonly offers: readonly string[];
  /** Those of them that may be signed in part. */
  readonly divisible: ReadonlySet<string>;
  /** Up to so many yes-or-no offers all sets are tried. */
  readonly allSetsUpTo?: number;
  readonly counting: Counting;
}

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
  limits: SolveLimits = {},
): OfferSetsAnswer {
  const tell = new Set<string>();
  for (;;) {
    const formulation = formulate(plant, { tellShortMonths: tell });
    const program = countedProgram(formulation.program, request.counting);
    const search = new SetSearch({ ...formulation, program }, request, solver, limits);
    try {
      const answer = search.answer();
      const told = search.declared();
      if (told.size === 0) return answer;
      for (const id of told) tell.add(id);
    } catch (error) {
      if (error instanceof Unfinished) return { status: error.reason };
      throw error;
    } finally {
      search.close();
    }
  }
}

/** undefined: free to choose. */
type Choice = ReadonlyMap<string, boolean | undefined>;

class SetSearch {
  private readonly shared: SharedProgram;
  private readonly yesNo: readonly string[];
  private readonly warm: WarmSolver;
  private readonly told = new Set<string>();
  private readonly mostTried: number;

  constructor(
    private readonly formulation: Formulation,
    private readonly request: SetsRequest,
    solver: Solver,
    private readonly limits: SolveLimits,
  ) {
    const isDivisible = (id: string) => request.divisible.has(id);
    this.yesNo = request.offers.filter((id) => !isDivisible(id)).sort();
    this.shared = withShares(
      formulation,
      new Map(request.offers.map((id) => [id, { lower: 0, upper: 1, whole: false }])),
    );
    this.warm = openWarm(solver);
    this.mostTried = request.allSetsUpTo ?? MOST_TRIED;
  }

  answer(): OfferSetsAnswer {
    const isTried = this.yesNo.length <= this.mostTried;
    return isTried ? this.tryAll() : this.branch();
  }

  /** Contracts whose plans declared tonnes missed that they deliver. */
  declared(): ReadonlySet<string> {
    return this.told;
  }

  close(): void {
    this.warm.close();
  }

  private tryAll(): OfferSetsAnswer {
    const sets: SignedSet[] = [];
    for (let bits = 0; bits < 2 ** this.yesNo.length; bits++) {
      const found = this.solve(new Map(this.yesNo.map((id, i) => [id, ((bits >> i) & 1) === 1])));
      if (found !== undefined) sets.push(found);
    }
    const ranked = sets.sort((a, b) => b.value - a.value);
    const best = fewestOffers(ranked);
    if (best === undefined) return { status: 'infeasible' };
    const runnerUp = ranked.find((set) => set !== best);
    const without = (id: string) => ranked.find((set) => !has(set, id))?.value;
    const withIt = (id: string) => ranked.find((set) => has(set, id))?.value;
    return this.chosen(best, runnerUp, 'all sets', {
      without: (id) => (this.request.divisible.has(id) ? this.solveApart(id, 0)?.value : without(id)),
      withIt: (id) => (this.request.divisible.has(id) ? this.solveApart(id, 1)?.value : withIt(id)),
    });
  }

  private branch(): OfferSetsAnswer {
    const best = this.solve(new Map());
    if (best === undefined) return { status: 'infeasible' };
    return this.chosen(best, this.solve(new Map(), best), 'whole numbers', {
      without: (id) => this.solveApart(id, 0)?.value,
      withIt: (id) => this.solveApart(id, 1)?.value,
    });
  }

  private chosen(
    best: SignedSet,
    runnerUp: SignedSet | undefined,
    manner: OfferSets['manner'],
    ask: Record<'without' | 'withIt', (id: string) => number | undefined>,
  ): OfferSets {
    const none = this.solve(new Map(this.request.offers.map((id) => [id, false])))?.value;
    const signed = best.offers.map(({ offer }) => offer);
    const others = [...this.request.offers].sort().filter((id) => !signed.includes(id));
    const less = (value: number | undefined) => (value === undefined ? undefined : best.value - value);
    const losses = signed.map((offer) => ({ offer, ...named('loss', less(ask.without(offer))) }));
    const costs = others.map((offer) => ({ offer, ...named('cost', less(ask.withIt(offer))) }));
    return {
      status: 'chosen',
      best,
      ...(runnerUp === undefined ? {} : { runnerUp }),
      ...(none === undefined ? {} : { none }),
      losses,
      costs,
      manner,
      solves: this.warm.solves,
    };
  }

  private solveApart(id: string, share: 0 | 1): SignedSet | undefined {
    const others = this.yesNo.filter((each) => each !== id);
    if (others.length > this.mostTried || !this.request.divisible.has(id)) {
      return this.solve(new Map([[id, share === 1]]));
    }
    let best: SignedSet | undefined;
    for (let bits = 0; bits < 2 ** others.length; bits++) {
      const choice = new Map<string, boolean>(others.map((each, i) => [each, ((bits >> i) & 1) === 1]));
      const found = this.solve(choice.set(id, share === 1));
      if (found !== undefined && found.value > (best?.value ?? Number.NEGATIVE_INFINITY)) best = found;
    }
    return best;
  }

  /** Yes-or-no offers that the choice leaves out are whole-number columns. `not`: another set than this one. */
  private solve(choice: Choice, not?: SignedSet): SignedSet | undefined {
    if (this.limits.cancelled?.() === true) throw new Unfinished('cancelled');
    const program = this.programOf(choice, not);
    const limits = { ...(hasIntegers(program) ? { gap: WHOLE_NUMBER_GAP } : {}), ...this.limits };
    const answer = this.warm.solve(program, limits);
    if (answer.kind === 'infeasible') return undefined;
    const found = answer.kind === 'solved' ? answer : answer.kind === 'stopped' ? answer.best : undefined;
    if (found === undefined) throw new Unfinished('no certified answer');
    const { primal, bound: claimed } = found.answer;
    const { plant, columns } = this.formulation;
    for (const id of shortMonthsToTell(plant, columns, primal)) this.told.add(id);
    const offers = [...this.request.offers].sort().flatMap((offer) => {
      const share = primal[this.shared.take.get(offer) as number];
      const isWhole = !this.request.divisible.has(offer);
      return share > SIGNED ? [{ offer, share: isWhole ? Math.round(share) : share }] : [];
    });
    const { objective: value, bound = Number.POSITIVE_INFINITY, scale } = found.certificate;
    return { offers, value, bound: Math.max(value, claimed ?? bound), scale };
  }

  private programOf(choice: Choice, not: SignedSet | undefined): LinearProgram<TakeKey, unknown> {
    const { program, take } = this.shared;
    const columnLower = program.columnLower.slice();
    const columnUpper = program.columnUpper.slice();
    const integer = program.integer.slice();
    for (const [id, column] of take) {
      const chosen = choice.get(id);
      if (chosen !== undefined) columnLower[column] = columnUpper[column] = chosen ? 1 : 0;
      else if (!this.request.divisible.has(id)) integer[column] = 1;
    }
    const held = { ...program, columnLower, columnUpper, integer };
    if (not === undefined) return held;
    const isSigned = (id: string) => not.offers.some(({ offer }) => offer === id);
    return withoutSet(held, new Map(this.yesNo.map((id) => [take.get(id) as number, isSigned(id)])));
  }
}

/** A smaller share is none. */
const SIGNED = 1e-6;

/** Of the sets of equal value one with the fewest offers: one that changes nothing is not signed. */
function fewestOffers(ranked: readonly SignedSet[]): SignedSet | undefined {
  const [first] = ranked;
  if (first === undefined) return undefined;
  const alike = ranked.filter(({ value }) => first.value - value <= VALUE_TOLERANCE * first.scale);
  return alike.reduce((few, set) => (set.offers.length < few.offers.length ? set : few), first);
}

const has = ({ offers }: SignedSet, id: string) => offers.some(({ offer }) => offer === id);

function named<K extends string>(key: K, value: number | undefined): { [k in K]?: number } {
  return value === undefined ? {} : ({ [key]: Math.max(0, value) } as { [k in K]?: number });
}
