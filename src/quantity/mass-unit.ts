/** Units of mass that a scenario may be written in. */
export type MassUnit = 'tonne' | 'short ton';

/** Exactly, by the international avoirdupois pound of 1959. */
export const KILOGRAMS_PER_POUND = 0.45359237;

export const POUNDS_PER_SHORT_TON = 2000;

/** Kilograms in one mass unit. */
export function kilogramsPer(unit: MassUnit): number {
  return unit === 'tonne' ? 1000 : POUNDS_PER_SHORT_TON * KILOGRAMS_PER_POUND;
}
