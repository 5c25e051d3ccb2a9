import type { Problem } from '../../issue/problem.js';
import type { Rate } from '../../quantity/rate.js';
import type { Draft } from '../../scenario/draft.js';
import { problemAt, shown } from '../../scenario/place.js';
import type { Series } from '../../scenario/schema/figures.js';
import { valuesOf } from '../series.js';

/** An elasticity is of fees above 0: of the fee asked, and of the one at which `available` holds. */
export function checkResponses(draft: Draft): Problem[] {
  return draft.feeds.flatMap(({ value: { tippingFee, response }, pointer }) => {
    if (response === undefined || !('elasticity' in response)) return [];
    const fees: [string, Series<Rate>][] = [
      ['/tippingFee', tippingFee],
      ['/response/at', response.at],
    ];
    return fees.flatMap(([field, series]) => {
      const lowest = Math.min(...valuesOf(series).map(amountOf));
      if (lowest > 0) return [];
      return [
        problemAt(
          draft.document,
          pointer + field,
          'out of range',
          `an elasticity needs fees above 0, and this one is ${shown(lowest)}`,
          'Raise the fee above 0, or give the response as a table of fees and tonnes',
        ),
      ];
    });
  });
}

function amountOf(rate: Rate): number {
  return typeof rate === 'number' ? rate : rate.amount;
}
