import type { Problem } from '../../issue/problem.js';
import type { Rate } from '../../quantity/rate.js';
import type { Draft } from '../../scenario/draft.js';
import { problemAt, shown } from '../../scenario/place.js';
import type { Series } from '../../scenario/schema/figures.js';
import { valuesOf } from '../../scenario/series.js';

/**
 * The steepest elasticity: with fees from 1e-12 to 1e12 in any two units its power stays a number in double
 * precision, and what falls more steeply is a table.
 */
const STEEPEST = -10;

/** An elasticity is of fees above 0: of the fee asked, and of the one at which `available` holds. */
export function checkResponses(draft: Draft): Problem[] {
  return draft.feeds.flatMap(({ value: { tippingFee, response }, pointer }) => {
    if (response === undefined || !('elasticity' in response)) return [];
    const fees: [string, Series<Rate>][] = [
      ['/tippingFee', tippingFee],
      ['/response/at', response.at],
    ];
    const steep = response.elasticity < STEEPEST ? [tooSteep(draft, pointer, response.elasticity)] : [];
    const notAboveZero = fees.flatMap(([field, series]) => {
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
    return [...steep, ...notAboveZero];
  });
}

function tooSteep(draft: Draft, pointer: string, elasticity: number): Problem {
  return problemAt(
    draft.document,
    `${pointer}/response/elasticity`,
    'out of range',
    `an elasticity of ${shown(elasticity)} is too steep to compute with`,
    `Write ${STEEPEST} or above, or give the response as a table of fees and tonnes`,
  );
}

function amountOf(rate: Rate): number {
  return typeof rate === 'number' ? rate : rate.amount;
}
