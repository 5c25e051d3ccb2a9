import { dayNumber } from '../calendar/days-in-force.js';
import type { Contract } from '../scenario/schema/scenario.js';
import { byMaterial, byMonth, type Derivation, ratesByMonth, sortedById } from './derivation.js';
import { inProportion, shareInForce } from './derive-outlets.js';
import { derivePrice } from './derive-price.js';
import type { ByMonth, PlantContract, PlantMaterial } from './plant.js';

export function deriveContracts(
  derivation: Derivation,
  materials: readonly PlantMaterial[],
): PlantContract[] {
  return sortedById(derivation.scenario.contracts).map((contract) =>
    deriveContract(derivation, contract, materials),
  );
}

function deriveContract(
  derivation: Derivation,
  contract: Contract,
  materials: readonly PlantMaterial[],
): PlantContract {
  const inForce = shareInForce(derivation, contract.from, contract.to);
  const lastMonth = inForce.findLastIndex((share) => share > 0);
  const whole = (series: Parameters<typeof byMonth>[1], absent: number) =>
    inProportion(byMonth(derivation, series, absent), inForce);
  const rates = (series: Parameters<typeof ratesByMonth>[2]) =>
    byMaterial(contract.materials, (material) => ratesByMonth(derivation, material, series));
  return {
    id: contract.id,
    name: contract.name ?? contract.id,
    buyer: contract.buyer,
    materials: [...contract.materials].sort(),
    inForce,
    ...(lastMonth < 0 ? {} : { lastMonth }),
    price: byMaterial(contract.materials, (material) => derivePrice(derivation, contract.price, material)),
    freight: rates(contract.freight),
    packing: rates(contract.packing),
    monthlyMin: whole(contract.monthly?.min, 0),
    monthlyMax: whole(contract.monthly?.max, Number.POSITIVE_INFINITY),
    ...(contract.call === undefined ? {} : { expected: whole(contract.call.expected, 0) }),
    ...termOf(derivation, contract),
    ...shortfallOf(derivation, contract, inForce),
    quality: qualityOf(contract, materials),
    paymentDays: contract.paymentDays ?? 0,
  };
}

/**
 * Minimum: (min − delivered) · days inside the horizon / days of the remaining life, which is counted from
 * the later of the contract's start and the horizon's start. Maximum: max − delivered.
 */
function termOf(
  { months }: Derivation,
  { from, to, term }: Contract,
): Pick<PlantContract, 'termMin' | 'termMax'> {
  if (term === undefined) return {};
  const { min, max, delivered = 0 } = term;
  const first = Math.max(0, dayNumber(months, from));
  const after = dayNumber(months, to) + 1;
  const inside = Math.min(after, months.at(-1)!.endDay) - first;
  return {
    ...(min === undefined || inside <= 0
      ? {}
      : { termMin: (Math.max(0, min - delivered) * inside) / (after - first) }),
    ...(max === undefined ? {} : { termMax: Math.max(0, max - delivered) }),
  };
}

/** A charge is by mass of whatever the contract names; its materials have the same figures where it needs one. */
function shortfallOf(
  derivation: Derivation,
  { materials, shortfall }: Contract,
  inForce: ByMonth,
): Pick<PlantContract, 'shortfall'> {
  if (shortfall === undefined) return {};
  const material = materials[0]!;
  const charge = ratesByMonth(derivation, material, shortfall.charge);
  const last = inForce.findLastIndex((share) => share > 0);
  const termCharge =
    shortfall.termCharge === undefined
      ? charge.at(last)!
      : ratesByMonth(derivation, material, shortfall.termCharge)[0]!;
  return { shortfall: { charge, termCharge } };
}

function qualityOf(contract: Contract, materials: readonly PlantMaterial[]): PlantContract['quality'] {
  return (contract.quality ?? [])
    .map(({ measure, min, max }) => ({
      measure,
      ...(min === undefined ? {} : { min }),
      ...(max === undefined ? {} : { max }),
      values: byMaterial(contract.materials, (id) => measureOf(materials, id, measure)),
    }))
    .sort((a, b) => (a.measure < b.measure ? -1 : a.measure > b.measure ? 1 : 0));
}

function measureOf(materials: readonly PlantMaterial[], id: string, measure: string): number {
  const material = materials.find((candidate) => candidate.id === id);
  const value = measure === 'heatingValue' ? material?.heatingValue : material?.assay[measure];
  if (value === undefined) throw new RangeError(`Material ${id} neither states nor derives ${measure}.`);
  return value;
}
