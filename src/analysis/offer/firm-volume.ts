import { allMass } from '../../planning/all-mass.js';
import { type Formulation, formulate } from '../../planning/formulate.js';
import type { Plant, PlantContract } from '../../plant/plant.js';
import { type AffineChange, changeBetween } from '../../program/affine-change.js';

/**
 * The offer as a firm monthly volume v without a price: minimum = maximum = v in a full month, in proportion to
 * the days in force, no shortfall; quality, freight and packing as they are.
 */
export interface FirmVolume {
  /** At v = 0, where it is the plan without the offer. */
  readonly formulation: Formulation;
  /** By mass unit a month. */
  readonly change: AffineChange;
  /** More than any plan can deliver: all mass that can come in over the months in force. */
  readonly ceiling: number;
}

/** Undefined where the offer is not in force inside the horizon. */
export function firmVolume(
  plant: Plant,
  id: string,
  tellShortMonths: ReadonlySet<string> = new Set(),
): FirmVolume | undefined {
  const at = (volume: number): Formulation =>
    formulate(
      {
        ...plant,
        contracts: plant.contracts.map((contract) =>
          contract.id === id ? firm(contract, volume) : contract,
        ),
      },
      { tellShortMonths },
    );
  const inForce = plant.contracts.find((contract) => contract.id === id)?.inForce ?? [];
  const months = inForce.reduce((sum, share) => sum + share, 0);
  if (months === 0) return undefined;
  const formulation = at(0);
  const change = changeBetween(formulation.program, at(1).program, 1);
  if (change === undefined) throw new RangeError('a volume changed the shape of the program');
  return { formulation, change, ceiling: allMass(plant) / months };
}

function firm(contract: PlantContract, volume: number): PlantContract {
  const { termMin: _, termMax: __, shortfall: ___, ...rest } = contract;
  const free = Object.fromEntries(
    contract.materials.map((material) => [material, contract.inForce.map(() => 0)]),
  );
  return {
    ...rest,
    price: free,
    monthlyMin: contract.inForce.map(() => 0),
    monthlyMax: contract.inForce.map(() => Number.POSITIVE_INFINITY),
    expected: contract.inForce.map((share) => share * volume),
  };
}
