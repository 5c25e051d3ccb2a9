import { hasIntegers } from '../../program/linear-program.js';
import type { Best } from './best.js';
import { type Search, searched } from './break-even-search.js';
import { breakEvenWhole } from './break-even-whole.js';
import { atPrices, type OfferProgram } from './offer-program.js';
import type { OfferSolver } from './offer-solver.js';
import type { PriceParameter } from './price-parameter.js';

/** The lowest price above which signing earns more than a target, in the unit of the parameter. */
export type BreakEven = FoundBreakEven | { readonly found: false; readonly reason: NoBreakEven };

export interface FoundBreakEven {
  readonly found: true;
  readonly price: number;
  /**
   * With whole numbers, from the gaps of both plans: at `high` the target is surely met, at `low` surely not
   * exceeded; each is absent where the gaps leave that open.
   */
  readonly interval?: { readonly low?: number; readonly high?: number };
}

export type NoBreakEven =
  /** Its minimums cannot be kept at any price. */
  | 'cannot be served'
  /** No plan delivers anything to it. */
  | 'nothing can be delivered'
  /** Its floor already earns more. */
  | 'floor'
  /** It earns more at any price of this material: others are delivered. */
  | 'any price'
  /** At its ceiling it still earns too little. */
  | 'ceiling'
  /** Its price falls as its base rises. */
  | 'falling price'
  | 'not in force'
  /** Its amounts differ and are not all above 0: no one number moves them. */
  | 'no common price'
  /** There is no plan without it to compare with. */
  | 'no plan without it';

export interface BreakEvenRequest {
  readonly program: OfferProgram;
  readonly parameter: PriceParameter;
  /** The plan without the offer, and what signing must earn above it. */
  readonly without: Best;
  readonly margin: number;
  /** Solved at the offer's own price. */
  readonly own: Best;
}

/** @throws Unfinished, DeclaredMissed */
export function breakEven(request: BreakEvenRequest, solver: OfferSolver): BreakEven {
  const { program, parameter, own, without, margin } = request;
  if (program.deliveries.length === 0) return { found: false, reason: 'not in force' };
  if (program.deliveries.some(({ material, month }) => parameter.rates[material][month] < 0)) {
    return { found: false, reason: 'falling price' };
  }
  if (hasIntegers(own.formulation.program)) return breakEvenWhole(request, solver);
  const asked = new Map<number, Best>([[parameter.own, own]]);
  const at = (price: number): Best => {
    const known = asked.get(price);
    if (known !== undefined) return known;
    const best = solver.best(atPrices(program, parameter.pricesAt(price)), 'signed');
    if (best === undefined) throw new RangeError('a price made a plan infeasible');
    asked.set(price, best);
    return best;
  };
  const search: Search = { ...request, target: without.value + margin, at, solver };
  const found = searched(search);
  return found.found ? { found: true, price: found.price } : found;
}
