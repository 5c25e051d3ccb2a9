import { currencyPerMassUnit, figureNeededBy, type Rate } from '../../quantity/rate.js';
import type { Draft } from '../draft.js';
import { isResolvable, type MaterialFigures, materialFigures } from '../material-figures.js';
import type { Series } from '../schema/figures.js';
import type { Material } from '../schema/scenario.js';
import { valuesFrom } from '../series.js';

/** One value a month of the horizon; undefined where the series does not cover it or there is no horizon. */
export function byMonth<T>(draft: Draft, series: Series<T>): readonly T[] | undefined {
  if (draft.horizon === undefined) return undefined;
  const { firstMonth, months } = draft.horizon.value;
  return valuesFrom(series, firstMonth, months);
}

/** The horizon's month at a position, YYYY-MM. */
export function monthLabel(draft: Draft, position: number): string {
  const { firstMonth } = draft.horizon!.value;
  const month = Number(firstMonth.slice(5, 7)) - 1 + position;
  return `${Number(firstMonth.slice(0, 4)) + Math.floor(month / 12)}-${String((month % 12) + 1).padStart(2, '0')}`;
}

/**
 * The first month in which a figure is above another, with both.
 *
 * @returns undefined where it never is, or where one of the two cannot be read by month
 */
export function firstMonthAbove(
  draft: Draft,
  figure: Series<number>,
  limit: Series<number>,
): { readonly month: string; readonly figure: number; readonly limit: number } | undefined {
  const figures = byMonth(draft, figure);
  const limits = byMonth(draft, limit);
  if (figures === undefined || limits === undefined) return undefined;
  const position = figures.findIndex((value, t) => value > limits[t]);
  if (position < 0) return undefined;
  return { month: monthLabel(draft, position), figure: figures[position], limit: limits[position] };
}

/** Currency per mass unit of a material; undefined where the rate needs a figure that is not known here. */
export function perMassUnit(draft: Draft, rate: Rate, material: string | undefined): number | undefined {
  if (typeof rate === 'number') return rate;
  const massUnit = draft.units?.value.mass;
  if (massUnit === undefined) return undefined;
  const found = draft.fragments.materials.find(({ value }) => value.id === material)?.value;
  const needed = figureNeededBy(rate);
  const figure = needed === undefined ? undefined : stated(found)[needed];
  if (needed !== undefined && figure === undefined) return undefined;
  return currencyPerMassUnit(rate, { massUnit, ...(needed === undefined ? {} : { [needed]: figure }) });
}

/** What a material states, published figures looked up; nothing where one of them is not in the table. */
function stated(material: Partial<Material> | undefined): MaterialFigures {
  return material !== undefined && isResolvable(material) ? materialFigures(material) : {};
}

/**
 * Which of two rates of a material is higher: negative, zero or positive like their difference; undefined
 * where that cannot be told here. Rates of one basis need no figure of the material.
 */
export function compareRates(draft: Draft, a: Rate, b: Rate, material?: string): number | undefined {
  if (typeof a === 'object' && typeof b === 'object' && a.per === b.per) return a.amount - b.amount;
  const [first, second] = [perMassUnit(draft, a, material), perMassUnit(draft, b, material)];
  return first === undefined || second === undefined ? undefined : first - second;
}
