import type { Rate, RateBasis } from '../../src/scenario/schema/figures.js';
import type { Material } from '../../src/scenario/schema/scenario.js';
import type { Random } from './random.js';
import type { Settings } from './settings.js';

/** A series as the document states it. */
export type StatedSeries<T> = T | T[] | { from: string; values: T[] };

/** kg in one, exact: 1 lb = 0.45359237 kg, 1 short ton = 2000 lb. */
export const KILOGRAMS = { tonne: 1000, 'short ton': 907.18474, kg: 1, lb: 0.45359237 } as const;

/** MJ in one: 1 Btu(IT) = 1055.05585262 J. */
const MEGAJOULES = { GJ: 1000, MMBtu: 1055.05585262 } as const;

export function rounded(value: number, decimals = 4): number {
  const scale = 10 ** decimals;
  return Math.round(value * scale) / scale;
}

/** How many of `basis` one mass unit holds: 1000 kg in a tonne, 30 GJ in a tonne of 30 MJ/kg. */
export function basesPerMassUnit(
  basis: RateBasis,
  massUnit: Settings['massUnit'],
  material: Pick<Material, 'tireMass' | 'heatingValue'>,
): number {
  const kilograms = KILOGRAMS[massUnit];
  if (basis === 'tire') return kilograms / (material.tireMass as number);
  if (basis === 'GJ' || basis === 'MMBtu')
    return (kilograms * (material.heatingValue as number)) / MEGAJOULES[basis];
  return kilograms / KILOGRAMS[basis];
}

/** The assay that a generated material states in figures. */
export function assayOf(material: Material): Readonly<Record<string, number>> {
  return (material.assay ?? {}) as Readonly<Record<string, number>>;
}

/** The rate of `value` currency per mass unit in another basis, the amount rounded to 4 decimals. */
export function rateIn(
  basis: RateBasis | undefined,
  value: number,
  massUnit: Settings['massUnit'],
  material: Material,
): Rate {
  if (basis === undefined) return rounded(value, 2);
  return { amount: rounded(value / basesPerMassUnit(basis, massUnit, material)), per: basis };
}

/** A basis that the material has the figures for; mostly none, which is a plain number. */
export function drawBasis(random: Random, settings: Settings, material: Material): RateBasis | undefined {
  const bases: RateBasis[] = ['lb', 'kg', 'tonne', 'short ton'];
  if (material.heatingValue !== undefined) bases.push('GJ', 'MMBtu');
  if (material.tireMass !== undefined) bases.push('tire', 'tire');
  const basis = random.pick(bases);
  const other = random.chance(0.4);
  return settings.has.otherBases && other ? basis : undefined;
}

/** Factors by month around 1, or undefined where the figure stays the same. */
export function drawMovement(random: Random, settings: Settings, spread: number): number[] | undefined {
  const factors = Array.from({ length: settings.months }, () => random.real(1 - spread, 1 + spread, 3));
  const moves = random.chance(0.5);
  return settings.has.seriesPrices && moves ? factors : undefined;
}

/** A series from a figure and its movement: an array, or (one month in three) values from the first month on. */
export function moved<T extends Rate>(
  value: T,
  movement: readonly number[] | undefined,
  settings: Settings,
): StatedSeries<T> {
  if (movement === undefined) return value;
  const values = movement.map((factor) => times(value, factor));
  return movement[0]! > 1 ? { from: settings.firstMonth, values } : values;
}

function times<T extends Rate>(value: T, factor: number): T {
  const rate: Rate = value;
  if (typeof rate === 'number') return rounded(rate * factor) as T;
  return { ...rate, amount: rounded(rate.amount * factor) } as T;
}
