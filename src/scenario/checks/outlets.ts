import type { Problem } from '../../issue/problem.js';
import type { Draft, Fragment } from '../draft.js';
import { problemAt, shown } from '../place.js';
import type { Outlet } from '../schema/scenario.js';
import { byMonth, compareRates, firstMonthAbove, monthLabel } from './by-month.js';

type Tiers = NonNullable<Outlet['tiers']>;

/** An outlet has either a price or tiers; tiers widen and their prices do not rise with volume. */
export function checkOutlets(draft: Draft): Problem[] {
  return draft.fragments.outlets.flatMap((outlet) => [
    ...oneForm(draft, outlet),
    ...(outlet.value.tiers ?? []).flatMap((_, i) => {
      if (i === 0) return [];
      const place = `${outlet.pointer}/tiers/${i}`;
      return [
        ...narrowing(draft, outlet.value.tiers!, i, place),
        ...rising(draft, outlet.value.tiers!, i, place, outlet.value.material),
      ];
    }),
  ]);
}

function oneForm(draft: Draft, { value, pointer, unclear }: Fragment<Outlet>): Problem[] {
  const has = (key: keyof Outlet) => value[key] !== undefined || unclear.has(key);
  const problem = (...text: readonly [string, string]) => [
    problemAt(draft.document, pointer, has('price') || has('tiers') ? 'conflict' : 'missing', ...text),
  ];
  if (!has('price') && !has('tiers')) {
    return problem(
      'it has neither `price` nor `tiers`',
      'Add `price` (with `limit`, if there is one), or `tiers`',
    );
  }
  if (has('price') && has('tiers')) {
    return problem('it has both `price` and `tiers`', 'Keep one of the two: a price is one tier');
  }
  if (has('limit') && has('tiers')) {
    return problem('`limit` goes with `price`, not with `tiers`', 'Delete `limit`: the last `upTo` says it');
  }
  return [];
}

function narrowing(draft: Draft, tiers: Tiers, i: number, pointer: string): Problem[] {
  const below = firstMonthAbove(draft, tiers[i - 1].upTo, tiers[i].upTo);
  const before = byMonth(draft, tiers[i - 1].upTo);
  const own = byMonth(draft, tiers[i].upTo);
  const isEmpty = own !== undefined && before !== undefined && own.every((value, t) => value === before[t]);
  if (below === undefined && !isEmpty) return [];
  const [lower, upper, month] =
    below === undefined ? [own![0], before![0], ''] : [below.limit, below.figure, ` in ${below.month}`];
  return [
    problemAt(
      draft.document,
      `${pointer}/upTo`,
      'tiers',
      `the tier ends at ${shown(lower)}${month}, and the one before it at ${shown(upper)}`,
      'Write `upTo` as the cumulative mass of the month, rising from tier to tier',
    ),
  ];
}

function rising(
  draft: Draft,
  tiers: Tiers,
  i: number,
  pointer: string,
  material: string | undefined,
): Problem[] {
  const before = byMonth(draft, tiers[i - 1].price);
  const own = byMonth(draft, tiers[i].price);
  if (before === undefined || own === undefined) return [];
  const month = own.findIndex((price, t) => (compareRates(draft, price, before[t], material) ?? 0) > 0);
  if (month < 0) return [];
  return [
    problemAt(
      draft.document,
      `${pointer}/price`,
      'tiers',
      `the price rises with volume: in ${monthLabel(draft, month)} it is above that of the tier before`,
      'Order the tiers by falling price; a price that rises with volume is a contract of its own',
    ),
  ];
}
