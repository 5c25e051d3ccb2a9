import type { Problem } from '../../issue/problem.js';
import { figureNeededBy, type Rate } from '../../quantity/rate.js';
import type { Draft } from '../../scenario/draft.js';
import { isResolvable, materialFigures } from '../../scenario/material-figures.js';
import { problemAt } from '../../scenario/place.js';
import type { Contract } from '../../scenario/schema/scenario.js';
import { valuesOf } from '../../scenario/series.js';

/**
 * A shortfall is missed mass of no material in particular: a charge per tire or by heating value needs one
 * figure for all the materials of the contract.
 */
export function checkShortfalls(draft: Draft): Problem[] {
  return [...draft.contracts, ...draft.offers].flatMap(({ value, pointer }) => {
    if (value.shortfall === undefined) return [];
    const { charge, termCharge } = value.shortfall;
    const rates: [string, readonly Rate[]][] = [
      ['charge', valuesOf(charge)],
      ['termCharge', termCharge === undefined ? [] : [termCharge]],
    ];
    return rates.flatMap(([field, values]) => {
      const needed = values.map(figureNeededBy).find((figure) => figure !== undefined);
      if (needed === undefined || haveOneFigure(draft, value, needed)) return [];
      return [
        problemAt(
          draft.document,
          `${pointer}/shortfall/${field}`,
          'unit needs a figure',
          `the materials of the contract differ in ${needed}`,
          'Give the charge by mass',
        ),
      ];
    });
  });
}

/** Materials that have no such figure are told elsewhere. */
function haveOneFigure(draft: Draft, { materials }: Contract, figure: 'tireMass' | 'heatingValue'): boolean {
  const figures = draft.materials
    .filter(({ value }) => materials.includes(value.id) && isResolvable(value))
    .flatMap(({ value }) => materialFigures(value)[figure] ?? []);
  return new Set(figures).size <= 1;
}
