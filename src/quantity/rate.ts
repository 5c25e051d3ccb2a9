import { KILOGRAMS_PER_POUND, kilogramsPer, type MassUnit } from './mass-unit.js';

export type RateBasis = MassUnit | 'kg' | 'lb' | 'tire' | 'GJ' | 'MMBtu';

/** Money by an amount of material: a number is currency per mass unit of the scenario. */
export type Rate = number | { readonly amount: number; readonly per: RateBasis };

/** What the bases of a rate need to know of the material. */
export interface RateFigures {
  readonly massUnit: MassUnit;
  /** kg a tire */
  readonly tireMass?: number;
  /** MJ/kg, lower */
  readonly heatingValue?: number;
}

/** Joules in one British thermal unit of the International Table, exactly. */
export const JOULES_PER_BTU = 1055.05585262;

const MEGAJOULES_PER_GIGAJOULE = 1000;
const MEGAJOULES_PER_MILLION_BTU = JOULES_PER_BTU;

/**
 * A rate in currency per mass unit of the scenario: amount · (kg per mass unit) / (kg per basis).
 *
 * @throws RangeError where the basis needs a figure that the material does not have.
 * @example currencyPerMassUnit({ amount: 2, per: 'tire' }, { massUnit: 'tonne', tireMass: 9.0718474 }) // 220.46…
 */
export function currencyPerMassUnit(rate: Rate, figures: RateFigures): number {
  if (typeof rate === 'number') return rate;
  if (rate.per === figures.massUnit) return rate.amount;
  return rate.amount * (kilogramsPer(figures.massUnit) / kilogramsPerBasis(rate.per, figures));
}

/** The figure of the material that a rate needs, if any. */
export function figureNeededBy(rate: Rate): 'tireMass' | 'heatingValue' | undefined {
  if (typeof rate === 'number') return undefined;
  if (rate.per === 'tire') return 'tireMass';
  return rate.per === 'GJ' || rate.per === 'MMBtu' ? 'heatingValue' : undefined;
}

function kilogramsPerBasis(basis: RateBasis, figures: RateFigures): number {
  switch (basis) {
    case 'tonne':
    case 'short ton':
      return kilogramsPer(basis);
    case 'kg':
      return 1;
    case 'lb':
      return KILOGRAMS_PER_POUND;
    case 'tire':
      return known(figures.tireMass, 'tireMass');
    case 'GJ':
      return MEGAJOULES_PER_GIGAJOULE / known(figures.heatingValue, 'heatingValue');
    case 'MMBtu':
      return MEGAJOULES_PER_MILLION_BTU / known(figures.heatingValue, 'heatingValue');
  }
}

function known(figure: number | undefined, name: string): number {
  if (figure === undefined) throw new RangeError(`The rate needs the material's ${name}.`);
  return figure;
}
