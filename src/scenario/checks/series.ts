import type { Problem } from '../../issue/problem.js';
import type { Draft, Located } from '../draft.js';
import { problemAt } from '../place.js';
import type { Series } from '../schema/figures.js';
import { listOf } from '../series.js';
import { byMonth, monthLabel } from './by-month.js';
import { numberSeries, rateUses } from './figures.js';

/** A list has one value for each month of the horizon; values from a month on cover it. */
export function checkSeries(draft: Draft): Problem[] {
  if (draft.horizon === undefined) return [];
  const { months } = draft.horizon.value;
  const all: Located<Series<unknown>>[] = [...numberSeries(draft), ...rateUses(draft)];
  return all.flatMap(({ value, pointer }) => {
    const list = listOf(value);
    if (list === undefined) return [];
    const { values, start } = list;
    if (start === undefined) return values.length === months ? [] : [wrongLength(draft, pointer, values)];
    return byMonth(draft, value) === undefined ? [notCovering(draft, pointer, start, values)] : [];
  });
}

function wrongLength(draft: Draft, pointer: string, values: readonly unknown[]): Problem {
  const { months } = draft.horizon!.value;
  return problemAt(
    draft.document,
    pointer,
    'series length',
    `the list has ${counted(values.length, 'value')} for ${counted(months, 'month')}`,
    `Give ${counted(months, 'value')}, or one figure for all months`,
  );
}

function notCovering(draft: Draft, pointer: string, start: string, values: readonly unknown[]): Problem {
  const { firstMonth, months } = draft.horizon!.value;
  const last = monthLabel(draft, months - 1);
  return problemAt(
    draft.document,
    pointer,
    'series length',
    `the ${counted(values.length, 'value')} from ${start} on do not cover the horizon from ${firstMonth} to ${last}`,
    `Give every value from ${firstMonth} or before it up to ${last}`,
  );
}

function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}
