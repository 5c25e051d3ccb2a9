import { type Month, monthsOf } from '../calendar/month.js';
import { currencyPerMassUnit, type Rate, type RateFigures } from '../quantity/rate.js';
import { materialFigures } from '../scenario/material-figures.js';
import type { Series } from '../scenario/schema/figures.js';
import type { Scenario } from '../scenario/schema/scenario.js';
import { spread } from '../scenario/series.js';
import { type AssayChain, assayChain } from './assay-chain.js';

/** What every part of the derivation needs: the scenario, its months, its materials' figures and assays. */
export interface Derivation {
  readonly scenario: Scenario;
  readonly months: readonly Month[];
  readonly figures: ReadonlyMap<string, RateFigures>;
  readonly chain: AssayChain;
}

export function derivationOf(scenario: Scenario): Derivation {
  const { firstMonth, months } = scenario.horizon;
  const materials = scenario.materials.map((material) => ({ id: material.id, ...materialFigures(material) }));
  const figures = materials.map(({ id, assay: _, ...own }): [string, RateFigures] => [
    id,
    { massUnit: scenario.units.mass, ...own },
  ]);
  return {
    scenario,
    months: monthsOf(firstMonth, months),
    figures: new Map(figures),
    chain: assayChain(sortedById(materials), sortedById(scenario.steps)),
  };
}

/** One figure a month; `absent` for every month where there is no series. */
export function byMonth(
  { months }: Derivation,
  series: Series<number> | undefined,
  absent: number,
): readonly number[] {
  return series === undefined ? months.map(() => absent) : spread(series, months);
}

/** Currency per mass unit of a material, one figure a month; 0 where there is no series. */
export function ratesByMonth(
  derivation: Derivation,
  material: string,
  series: Series<Rate> | undefined,
): number[] {
  return spread(series ?? 0, derivation.months).map((rate) => rateOf(derivation, material, rate));
}

/** Currency per mass unit of a material; 0 where there is no rate. */
export function rateOf({ figures }: Derivation, material: string, rate: Rate | undefined): number {
  const known = figures.get(material);
  if (known === undefined) throw new RangeError(`There is no material ${material}.`);
  return currencyPerMassUnit(rate ?? 0, known);
}

/** The figures of several materials, by their ids. */
export function byMaterial<T>(
  materials: readonly string[],
  figure: (material: string) => T,
): Record<string, T> {
  return Object.fromEntries(materials.map((material) => [material, figure(material)]));
}

/** A list in the order of ids, by code unit, whatever the locale. */
export function sortedById<T extends { readonly id: string }>(list: readonly T[] | undefined): T[] {
  return [...(list ?? [])].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
}
