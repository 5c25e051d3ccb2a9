import type { Problem } from '../../issue/problem.js';
import { figureNeededBy } from '../../quantity/rate.js';
import type { Draft } from '../draft.js';
import { listed, problemAt } from '../place.js';
import { type RateUse, rateUses, valuesIn } from './figures.js';

/** A rate by the tire or by energy needs that figure of every material; an index in points has no unit. */
export function checkUnits(draft: Draft): Problem[] {
  return [...rateUses(draft).flatMap((use) => missingFigures(draft, use)), ...indexUnits(draft)];
}

const FIGURE_NAMES = {
  tireMass: { words: 'mass of a tire', unit: 'kg a tire' },
  heatingValue: { words: 'heating value', unit: 'MJ/kg' },
} as const;

/** The first value of a series that needs a figure stands for the others. */
function missingFigures(draft: Draft, use: RateUse): Problem[] {
  for (const { value, pointer } of valuesIn(use)) {
    const figure = figureNeededBy(value);
    const lacking = figure === undefined ? [] : use.materials.filter((id) => lacks(draft, id, figure));
    if (figure === undefined || lacking.length === 0 || typeof value === 'number') continue;
    const { words, unit } = FIGURE_NAMES[figure];
    const names = listed(
      lacking.map((id) => `'${id}'`),
      'and',
    );
    return [
      problemAt(
        draft.document,
        `${pointer}/per`,
        'unit needs a figure',
        `a rate per ${value.per} needs the ${words} of ${names}`,
        `State \`${figure}\` (${unit}) of ${names}, or give the rate by mass`,
      ),
    ];
  }
  return [];
}

function lacks(draft: Draft, id: string, figure: 'tireMass' | 'heatingValue'): boolean {
  const material = draft.fragments.materials.find(({ value }) => value.id === id);
  return material !== undefined && material.value[figure] === undefined && !material.unclear.has(figure);
}

function indexUnits(draft: Draft): Problem[] {
  return draft.fragments.indices.flatMap(({ value, pointer }) => {
    if (value.kind !== 'points') return [];
    const base = value.base === undefined ? [] : [{ value: value.base, pointer: `${pointer}/base` }];
    const values =
      value.values === undefined ? [] : valuesIn({ value: value.values, pointer: `${pointer}/values` });
    const rated = [...base, ...values].find((figure) => typeof figure.value !== 'number');
    return [
      ...(rated === undefined ? [] : [pointsWithUnit(draft, rated.pointer)]),
      ...(value.base === 0 ? [zeroBase(draft, `${pointer}/base`)] : []),
    ];
  });
}

function pointsWithUnit(draft: Draft, pointer: string): Problem {
  return problemAt(
    draft.document,
    pointer,
    'conflict',
    'an index in points has plain figures, not rates',
    'Write a plain number, or make the index one of kind "price"',
  );
}

function zeroBase(draft: Draft, pointer: string): Problem {
  return problemAt(
    draft.document,
    pointer,
    'out of range',
    'the base of an index in points is 0, and a price would be divided by it',
    'Write the value of the index at which a formula pays its base',
  );
}
