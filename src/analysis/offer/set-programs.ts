import type { Formulation, PlanProgram } from '../../planning/formulate.js';
import type { Best } from './best.js';
import type { SetsRequest, SignedSet } from './offer-sets.js';
import { type SharedProgram, withShares } from './signed-shares.js';
import { withoutSet } from './without-set.js';

/** By offer whether it is signed; one that is left out is free: to a share, or yes or no. */
export type SetChoice = ReadonlyMap<string, boolean>;

/** A smaller share is none. */
const SIGNED = 1e-6;

/** The programs of the sets of several offers: one shape, in which the share of each offer is a column. */
export class SetPrograms {
  readonly offers: readonly string[];
  /** Those that are signed as a whole or not at all. */
  readonly yesNo: readonly string[];
  private readonly shared: SharedProgram;

  constructor(
    private readonly formulation: Formulation,
    private readonly request: SetsRequest,
  ) {
    this.offers = [...request.offers].sort();
    this.yesNo = this.offers.filter((id) => !request.divisible.has(id));
    const free = { lower: 0, upper: 1, whole: false };
    this.shared = withShares(formulation, new Map(request.offers.map((id) => [id, free])));
  }

  /** `not`: another set than this one. */
  formulationOf(choice: SetChoice, not?: SignedSet): Formulation {
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
    const isSigned = (id: string) => not?.offers.some(({ offer }) => offer === id) === true;
    const decided = new Map(this.yesNo.map((id) => [take.get(id) as number, isSigned(id)]));
    // Keys are handed through; those of the shares come after the columns of the plan.
    const own = (not === undefined ? held : withoutSet(held, decided)) as PlanProgram;
    return { ...this.formulation, program: own };
  }

  signedSet({ primal, value, bound, scale }: Best): SignedSet {
    const offers = this.offers.flatMap((offer) => {
      const share = primal[this.shared.take.get(offer) as number];
      const isYesNo = !this.request.divisible.has(offer);
      return share > SIGNED ? [{ offer, share: isYesNo ? Math.round(share) : share }] : [];
    });
    return { offers, value, bound, scale };
  }
}
