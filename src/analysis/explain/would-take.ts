import type { Formulation } from '../../planning/formulate.js';
import { costSide } from '../ranging/cost-side.js';
import { type Ranger, VariantUnanswered } from '../ranging/ranger.js';
import type { WouldTake } from './explanation.js';
import { forcedIn } from './forced-in.js';
import { type Opening, openings } from './opening.js';
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
  const entries = openings(formulation).flatMap((opening): WouldTake[] => {
    const used = opening.columns.reduce((sum, column) => sum + point[column], 0);
    if (used >= opening.could - AT_LIMIT * (1 + opening.could)) return [];
    if (opening.what.kind === 'step' && used > AT_LIMIT) return [];
    if (opening.after !== undefined && point[opening.after.column] < opening.after.width - AT_LIMIT)
      return [];
    const rates = new Map(opening.columns.map((column) => [column, opening.rate]));
    const side = costSide(ranger, rates, 1, { point });
    if (side.kind === 'unanswered') unanswered += 1;
    const rise = side.kind === 'stays' && Number.isFinite(side.end) ? side.end : undefined;
    const forced = answered(() => forcedIn(formulation, ranger, opening, used <= AT_LIMIT ? 0 : used));
    if (forced === 'unanswered') unanswered += 1;
    return [entryOf(formulation, ranger, opening, used, rise, forced === 'unanswered' ? undefined : forced)];
  });
  return { entries, unanswered };
}

function answered<T>(ask: () => T): T | 'unanswered' {
  try {
    return ask();
  } catch (error) {
    if (error instanceof VariantUnanswered) return 'unanswered';
    throw error;
  }
}

function entryOf(
  formulation: Formulation,
  ranger: Ranger,
  opening: Opening,
  used: number,
  rise: number | undefined,
  forced: WouldTake['forced'],
): WouldTake {
  const { what, could, price } = opening;
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
