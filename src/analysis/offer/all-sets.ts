import { type Best, VALUE_TOLERANCE } from './best.js';
import { type Family, mayBeBetter, openOf } from './loss.js';
import type { ChosenSets, OpenSet, SignedSet } from './offer-sets.js';
import type { OfferSolver } from './offer-solver.js';
import type { SetChoice, SetPrograms } from './set-programs.js';

/** With whole shifts: sets that are searched; each search is long. */
const MOST_SEARCHED = 6;

/** One set: solved in parts, which bounds it; with whole shifts a plan of its own where one was made. */
interface Candidate {
  readonly choice: SetChoice;
  /** In parts. */
  readonly rough: Best;
  readonly bound: number;
  readonly best?: Best;
}

interface Solvers {
  readonly inParts: OfferSolver;
  /** The same where nothing is whole. */
  readonly whole: OfferSolver;
}

/**
 * Tries every set. With whole shifts each is solved in parts first, which bounds it from above; then the most
 * promising are searched, until none of the others can be better than the best plan, or so many were searched.
 *
 * @throws Unfinished, DeclaredMissed
 */
export function bestOfAllSets(programs: SetPrograms, solvers: Solvers): ChosenSets | undefined {
  const search = new AllSets(programs, solvers);
  return search.chosen();
}

class AllSets {
  private readonly candidates = new Map<string, Candidate>();

  constructor(
    private readonly programs: SetPrograms,
    private readonly solvers: Solvers,
  ) {}

  chosen(): ChosenSets | undefined {
    const all = this.choicesWith(new Map()).flatMap((choice) => this.tried(choice) ?? []);
    if (all.length === 0) return undefined;
    this.searchPromising(all);
    for (;;) {
      const best = fewestOffers(this.ranked(all));
      const chosen = this.judged(all, best);
      // A plan made for a loss may turn out to be the best one.
      if (fewestOffers(this.ranked(all)).value <= best.value) return chosen;
    }
  }

  private judged(all: readonly Candidate[], best: SignedSet): ChosenSets {
    const { offers } = this.programs;
    const signed = best.offers.map(({ offer }) => offer);
    const none = this.value(new Map(offers.map((id) => [id, false])));
    const losses = signed.map((offer) => {
      const { figure, ...open } = openOf(best, this.family(offer, false));
      return { offer, ...(figure === undefined ? {} : { loss: figure }), ...open };
    });
    const costs = offers
      .filter((id) => !signed.includes(id))
      .map((offer) => {
        const { figure, ...open } = openOf(best, this.family(offer, true));
        return { offer, ...(figure === undefined ? {} : { cost: figure }), ...open };
      });
    const runnerUp = this.ranked(all).find((set) => nameOfSet(set) !== nameOfSet(best));
    return {
      best,
      ...(runnerUp === undefined ? {} : { runnerUp }),
      undecided: this.undecided(all, best),
      ...(none === undefined ? {} : { none }),
      losses,
      costs,
      manner: 'all sets',
    };
  }

  private get isWhole(): boolean {
    return this.solvers.whole !== this.solvers.inParts;
  }

  /** Every yes or no of the offers that are signed whole or not at all, beside what is fixed. */
  private choicesWith(fixed: SetChoice): SetChoice[] {
    const free = this.programs.yesNo.filter((id) => !fixed.has(id));
    return Array.from({ length: 2 ** free.length }, (_, bits) => {
      const chosen = free.map((id, i): [string, boolean] => [id, ((bits >> i) & 1) === 1]);
      return new Map([...fixed, ...chosen]);
    });
  }

  private tried(choice: SetChoice): Candidate | undefined {
    const name = nameOf(choice);
    const known = this.candidates.get(name);
    if (known !== undefined) return known;
    const best = this.solvers.inParts.best(this.programs.formulationOf(choice), 'set');
    if (best === undefined) return undefined;
    const candidate = { choice, rough: best, bound: best.bound, ...(this.isWhole ? {} : { best }) };
    this.candidates.set(name, candidate);
    return candidate;
  }

  /** The candidate as it is known by now. */
  private latest({ choice }: Candidate): Candidate {
    return this.candidates.get(nameOf(choice)) as Candidate;
  }

  private learn(candidate: Candidate, best: Best | undefined): void {
    if (best === undefined) return;
    const { choice, rough, bound, best: earlier } = this.latest(candidate);
    this.candidates.set(nameOf(choice), {
      choice,
      rough,
      bound: Math.min(bound, best.bound),
      best: earlier === undefined || best.value > earlier.value ? best : earlier,
    });
  }

  private searchPromising(all: readonly Candidate[]): void {
    if (!this.isWhole) return;
    const searched = new Set<Candidate>();
    for (let count = 0; count < MOST_SEARCHED; count++) {
      const most = Math.max(...all.map((each) => this.latest(each).best?.value ?? Number.NEGATIVE_INFINITY));
      const [next] = all
        .filter((each) => !searched.has(each) && this.latest(each).bound > most)
        .sort((a, b) => b.bound - a.bound);
      if (next === undefined) return;
      searched.add(next);
      this.learn(next, this.solvers.whole.best(this.programs.formulationOf(next.choice), 'set'));
    }
  }

  /** A plan that is found at once, where a set has none yet. */
  private withPlan(candidate: Candidate): Candidate {
    if (this.latest(candidate).best === undefined) {
      this.learn(
        candidate,
        this.solvers.whole.firstPlan(this.programs.formulationOf(candidate.choice), 'set'),
      );
    }
    return this.latest(candidate);
  }

  /** What the best of the sets with an offer, or without it, is worth. */
  private family(id: string, isSigned: boolean): Family | undefined {
    const members = this.choicesWith(new Map([[id, isSigned]])).flatMap((choice) => this.tried(choice) ?? []);
    const [first, ...others] = [...members].sort((a, b) => b.bound - a.bound);
    if (first === undefined) return undefined;
    const known = [this.withPlan(first), ...others.map((each) => this.latest(each))];
    return {
      value: Math.max(...known.map(({ best }) => best?.value ?? Number.NEGATIVE_INFINITY)),
      bound: Math.max(...known.map(({ bound }) => bound)),
    };
  }

  private value(choice: SetChoice): number | undefined {
    const candidate = this.tried(choice);
    return candidate === undefined ? undefined : this.withPlan(candidate).best?.value;
  }

  private ranked(all: readonly Candidate[]): SignedSet[] {
    return all
      .flatMap((each) => {
        const { best, bound } = this.latest(each);
        return best === undefined ? [] : [{ ...this.programs.signedSet(best), bound }];
      })
      .sort((a, b) => b.value - a.value);
  }

  private undecided(all: readonly Candidate[], best: SignedSet): OpenSet[] {
    if (!this.isWhole) return [];
    return all
      .map((each) => this.latest(each))
      .filter((each) => mayBeBetter(best, each))
      .map(({ best: plan, rough, bound }) => ({ ...this.programs.signedSet(plan ?? rough), bound }))
      .filter((set) => nameOfSet(set) !== nameOfSet(best))
      .sort((a, b) => b.bound - a.bound)
      .map(({ offers, bound }) => ({ offers, bound }));
  }
}

function nameOf(choice: SetChoice): string {
  return [...choice]
    .map(([id, isSigned]) => `${id} ${isSigned}`)
    .sort()
    .join();
}

function nameOfSet({ offers }: SignedSet): string {
  return offers.map(({ offer, share }) => `${offer} ${share}`).join();
}

/** Of the sets of equal value one with the fewest offers: one that changes nothing is not signed. */
function fewestOffers(ranked: readonly SignedSet[]): SignedSet {
  const [first] = ranked;
  const alike = ranked.filter(({ value }) => first.value - value <= VALUE_TOLERANCE * first.scale);
  return alike.reduce((few, set) => (set.offers.length < few.offers.length ? set : few), first);
}
