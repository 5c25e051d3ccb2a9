import type { Problem } from '../../issue/problem.js';
import type { Draft } from '../draft.js';
import { problemAt } from '../place.js';

/** Nothing ends before it begins. Dates are ISO 8601, so that they compare as text. */
export function checkDates(draft: Draft): Problem[] {
  const { outlets, contracts, offers } = draft.fragments;
  return [...outlets, ...contracts, ...offers].flatMap(({ value: { from, to }, pointer }) =>
    from === undefined || to === undefined || from <= to
      ? []
      : [
          problemAt(
            draft.document,
            `${pointer}/to`,
            'calendar',
            `it ends on ${to}, before it begins on ${from}`,
            'Write a last day that is not before the first',
          ),
        ],
  );
}
