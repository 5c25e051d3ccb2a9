import { monthsOf } from '../../calendar/month.js';
import { derivePlant } from '../../plant/derive-plant.js';
import type { Contract, Scenario } from '../../scenario/schema/scenario.js';
import { type Best, VALUE_TOLERANCE } from './best.js';
import { offerProgram } from './offer-program.js';
import type { OfferSolver } from './offer-solver.js';

/** One term of an offer, changed. */
export type TermChange =
  | 'no monthly minimum'
  | 'half the monthly minimum'
  | 'no monthly maximum'
  | 'no minimum over the term'
  | 'no maximum over the term'
  | 'no shortfall charge'
  | 'no minimum may be missed'
  | 'no charge for the term'
  | 'no quality limit'
  | 'paid at the end of the month'
  | 'one month later'
  | 'no floor'
  | 'no ceiling'
  | 'the plant chooses the volume'
  | 'as asked';

/** What the offer would be worth more (or less) with one term changed and all others as they are. */
export interface TermWorth {
  readonly change: TermChange;
  /** The measure of a quality limit. */
  readonly measure?: string;
  /** Present value; absent where no plan can keep the changed offer. */
  readonly worth?: number;
  /** Half the sum of both gaps: the worth is known to within it; absent where it is rounding. */
  readonly within?: number;
}

interface Changed {
  readonly change: TermChange;
  readonly measure?: string;
  readonly offer: Contract;
}

/**
 * Each term apart. `asked`: a changed offer of the user's.
 *
 * @throws Unfinished, DeclaredMissed
 */
export function termWorths(
  scenario: Scenario,
  offer: Contract,
  own: Best,
  solver: OfferSolver,
  tell: ReadonlySet<string>,
  asked?: Contract,
): TermWorth[] {
  const list = [
    ...changesOf(offer),
    ...(asked === undefined ? [] : [{ change: 'as asked' as const, offer: asked }]),
  ];
  return list.map(({ change, measure, offer: changed }): TermWorth => {
    const named = { change, ...(measure === undefined ? {} : { measure }) };
    const contracts = scenario.contracts?.map((each) => (each.id === offer.id ? changed : each));
    const plant = derivePlant({ ...scenario, contracts });
    const best = solver.best(offerProgram(plant, offer.id, tell).formulation, `term ${change}`);
    if (best === undefined) return named;
    const within = (best.bound - best.value + own.bound - own.value) / 2;
    return {
      ...named,
      worth: best.value - own.value,
      ...(within > VALUE_TOLERANCE * own.scale ? { within } : {}),
    };
  });
}

function changesOf(offer: Contract): Changed[] {
  const { monthly, term, shortfall, quality, price, call, paymentDays } = offer;
  const changes: Changed[] = [];
  const add = (change: TermChange, changed: Contract, measure?: string) =>
    changes.push({ change, offer: changed, ...(measure === undefined ? {} : { measure }) });
  if (monthly?.min !== undefined) {
    const { min, ...rest } = monthly;
    add('no monthly minimum', { ...offer, monthly: rest });
    add('half the monthly minimum', { ...offer, monthly: { ...rest, min: half(min) } });
  }
  if (monthly?.max !== undefined) add('no monthly maximum', { ...offer, monthly: without(monthly, 'max') });
  if (term?.min !== undefined) add('no minimum over the term', { ...offer, term: without(term, 'min') });
  if (term?.max !== undefined) add('no maximum over the term', { ...offer, term: without(term, 'max') });
  if (shortfall !== undefined) {
    const free = shortfall.termCharge === undefined ? {} : { termCharge: 0 };
    add('no shortfall charge', { ...offer, shortfall: { charge: 0, ...free } });
    if (shortfall.termCharge !== undefined) {
      add('no charge for the term', { ...offer, shortfall: { ...shortfall, termCharge: 0 } });
    }
    add('no minimum may be missed', without(offer, 'shortfall'));
  }
  for (const { measure } of quality ?? []) {
    const others = quality?.filter((each) => each.measure !== measure);
    add('no quality limit', { ...offer, quality: others }, measure);
  }
  if ((paymentDays ?? 0) > 0) add('paid at the end of the month', { ...offer, paymentDays: 0 });
  const later = monthAfter(offer.from);
  if (later <= offer.to) add('one month later', { ...offer, from: later });
  if (typeof price === 'object' && 'index' in price) {
    if (price.floor !== undefined) add('no floor', { ...offer, price: without(price, 'floor') });
    if (price.ceiling !== undefined) add('no ceiling', { ...offer, price: without(price, 'ceiling') });
  }
  if (call !== undefined) add('the plant chooses the volume', without(offer, 'call'));
  return changes;
}

type Minimum = NonNullable<NonNullable<Contract['monthly']>['min']>;

function half(min: Minimum): Minimum {
  if (typeof min === 'number') return min / 2;
  if (Array.isArray(min)) return min.map((value) => value / 2);
  return 'values' in min ? { ...min, values: min.values.map((value) => value / 2) } : min;
}

function without<T extends object, K extends keyof T>(record: T, key: K): T {
  const { [key]: _, ...rest } = record;
  return rest as T;
}

/** The same day of the next month, or its last one: '2027-01-31' gives '2027-02-28'. */
function monthAfter(date: string): string {
  const [year, month, day] = date.split('-').map(Number);
  const next = month === 12 ? `${year + 1}-01` : `${year}-${String(month + 1).padStart(2, '0')}`;
  const [{ days }] = monthsOf(next, 1);
  return `${next}-${String(Math.min(day, days)).padStart(2, '0')}`;
}
