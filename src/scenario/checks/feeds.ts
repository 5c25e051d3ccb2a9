import type { Problem } from '../../issue/problem.js';
import type { Draft, Fragment } from '../draft.js';
import { problemAt, shown } from '../place.js';
import type { Feed } from '../schema/scenario.js';
import { compareRates, firstMonthAbove } from './by-month.js';

type Table = Extract<NonNullable<Feed['response']>, readonly unknown[]>;

/** What is committed can be had, and a table of fees and tonnes falls with the fee. */
export function checkFeeds(draft: Draft): Problem[] {
  return draft.fragments.feeds.flatMap((feed) => {
    const { committed, available, response } = feed.value;
    const above =
      committed === undefined || available === undefined
        ? undefined
        : firstMonthAbove(draft, committed, available);
    return [
      ...(above === undefined
        ? []
        : problem(
            draft,
            `${feed.pointer}/committed`,
            `${shown(above.figure)} are committed in ${above.month}, and ${shown(above.limit)} can be had`,
            'Lower `committed`, or raise `available`: it counts the committed too',
          )),
      ...(Array.isArray(response) ? tableProblems(draft, feed, response) : []),
    ];
  });
}

function tableProblems(draft: Draft, { value, pointer }: Fragment<Feed>, table: Table): Problem[] {
  return table.flatMap((row, i) => {
    const place = `${pointer}/response/${i}`;
    const before = table[i - 1];
    return [
      ...(before !== undefined &&
      (compareRates(draft, row.fee, before.fee, value.material) ?? Number.POSITIVE_INFINITY) <= 0
        ? problem(
            draft,
            `${place}/fee`,
            'the fee is not above that of the entry before',
            'List the entries by rising fee',
          )
        : []),
      ...(before !== undefined && row.available > before.available
        ? problem(
            draft,
            `${place}/available`,
            `${shown(row.available)} can be had at a higher fee, and ${shown(before.available)} at the lower one before`,
            'Let the mass fall as the fee rises',
          )
        : []),
      ...outsideTheFeed(draft, value, row.available, place),
    ];
  });
}

function outsideTheFeed(
  draft: Draft,
  { committed, available }: Partial<Feed>,
  mass: number,
  place: string,
): Problem[] {
  const below = committed === undefined ? undefined : firstMonthAbove(draft, committed, mass);
  const above = available === undefined ? undefined : firstMonthAbove(draft, mass, available);
  if (below !== undefined) {
    return problem(
      draft,
      `${place}/available`,
      `${shown(mass)} are below the ${shown(below.figure)} committed in ${below.month}`,
      'Count the committed mass in: it comes whatever the fee',
    );
  }
  if (above === undefined) return [];
  return problem(
    draft,
    `${place}/available`,
    `${shown(mass)} are above the ${shown(above.limit)} that can be had in ${above.month}`,
    "Lower it, or raise the feed's `available`",
  );
}

function problem(draft: Draft, pointer: string, text: string, remedy: string): Problem[] {
  return [problemAt(draft.document, pointer, 'conflict', text, remedy)];
}
