import type { Formulation } from '../../planning/formulate.js';
import { costSide } from '../ranging/cost-side.js';
import { type Ranger, VariantUnanswered } from '../ranging/ranger.js';
import type { WouldTake } from './explanation.js';
import { forcedIn } from './forced-in.js';
import { type UnusedOption, unusedOptions } from './unused-option.js';
import { yieldToComeIn } from './yield-to-come-in.js';

/** A column counts as used to its limit within this, relative. */
const AT_LIMIT = 1e-7;

/**
 * For all that the plan leaves alone or uses less than it could: the price, fee or saving at which more of it
 * would come in, all else as it is, and what the best plan loses if a mass unit more is forced in.
 *
 * @param point the plan's own, of which the price is asked.
 */
export function wouldTake(
  formulation: Formulation,
  ranger: Ranger,
  point: Float64Array,
): { readonly entries: readonly WouldTake[]; readonly unanswered: number } {
  let unanswered = 0;
  const entries = unusedOptions(formulation).flatMap((option): WouldTake[] => {
    const used = usedOf(option, point);
    if (!isOpen(option, used, point)) return [];
    const rise = riseToComeIn(ranger, option, point);
    if (rise === 'unanswered') unanswered += 1;
    const forced = answered(() => forcedIn(formulation, ranger, option, used <= AT_LIMIT ? 0 : used));
    if (forced === 'unanswered') unanswered += 1;
    const known = <T>(answer: T | 'unanswered') => (answer === 'unanswered' ? undefined : answer);
    return [entryOf(formulation, ranger, option, used, known(rise), known(forced))];
  });
  return { entries, unanswered };
}

export function usedOf({ columns }: UnusedOption, point: Float64Array): number {
  return columns.reduce((sum, column) => sum + point[column], 0);
}

/** Whether the plan leaves an option alone or uses less of it than it could. */
export function isOpen({ what, could, after }: UnusedOption, used: number, point: Float64Array): boolean {
  if (used >= could - AT_LIMIT * (1 + could)) return false;
  if (what.kind === 'step' && used > AT_LIMIT) return false;
  return after === undefined || point[after.column] >= after.width - AT_LIMIT;
}

/** By how much the price would have to rise for more to come in; undefined: no rise would do. */
export function riseToComeIn(
  ranger: Ranger,
  { columns, rate, movesSupply }: UnusedOption,
  point: Float64Array,
): number | undefined | 'unanswered' {
  if (movesSupply === true) return undefined;
  const rates = new Map(columns.map((column) => [column, rate]));
  const side = costSide(ranger, rates, 1, { point });
  if (side.kind === 'unanswered') return 'unanswered';
  return Number.isFinite(side.end) ? side.end : undefined;
}

export function answered<T>(ask: () => T): T | 'unanswered' {
  try {
    return ask();
  } catch (error) {
    if (error instanceof VariantUnanswered) return 'unanswered';
    throw error;
  }
}

export function entryOf(
  formulation: Formulation,
  ranger: Ranger,
  option: UnusedOption,
  used: number,
  rise: number | undefined,
  forced: WouldTake['forced'],
): WouldTake {
  const { what, could, price } = option;
  const share = what.kind === 'step' && rise !== undefined && rise > 0;
  const yielded = share ? yieldToComeIn(formulation, ranger, what) : undefined;
  return {
    what,
    used,
    ...(Number.isFinite(could) ? { could } : {}),
    ...(price === undefined ? {} : { price }),
    ...(rise === undefined ? {} : { rise }),
    ...(rise === undefined || price === undefined ? {} : { comesInAt: price + rise }),
    ...(yielded === undefined ? {} : { yield: yielded }),
    ...(forced === undefined ? {} : { forced }),
  };
}
