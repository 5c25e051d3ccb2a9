import type { ColumnKey } from '../../planning/keys.js';
import { RUNG_FORMS } from '../../planning/read/rung-forms.js';
import type { Plant } from '../../plant/plant.js';

/** Mass over the whole horizon, by id. */
export type MassById = Readonly<Record<string, number>>;

/** Where the tonnes of a plan come from and go to, in the plant's unit of mass. */
export interface PlanTonnes {
  /** By feed. */
  readonly received: MassById;
  /** Input mass, by step. */
  readonly run: MassById;
  /** On the spot, by outlet. */
  readonly sold: MassById;
  /** By contract. */
  readonly delivered: MassById;
  /** By disposal. */
  readonly disposed: MassById;
  /** Sold, delivered or disposed of, by material at which a tonne of tire may stop. */
  readonly rungs: MassById;
}

/** The tonnes of a point of a program with these columns. */
export function planTonnes(
  plant: Plant,
  columnKeys: readonly ColumnKey[],
  primal: ArrayLike<number>,
): PlanTonnes {
  const materialOf = new Map(plant.outlets.map(({ id, material }) => [id, material]));
  const [received, run, sold] = [plant.feeds, plant.steps, plant.outlets].map(noMass);
  const [delivered, disposed] = [plant.contracts, plant.disposals].map(noMass);
  const rungs = noMass(plant.materials.filter(({ form }) => RUNG_FORMS.has(form)));
  const leave = (material: string | undefined, mass: number) => {
    if (material !== undefined && material in rungs) rungs[material] += mass;
  };
  columnKeys.forEach((key, j) => {
    const mass = primal[j];
    switch (key.kind) {
      case 'receive':
        received[key.feed] += mass;
        break;
      case 'run':
        run[key.step] += mass;
        break;
      case 'sell':
        sold[key.outlet] += mass;
        leave(materialOf.get(key.outlet), mass);
        break;
      case 'deliver':
        delivered[key.contract] += mass;
        leave(key.material, mass);
        break;
      case 'dispose':
        disposed[key.disposal] += mass;
        leave(key.material, mass);
        break;
    }
  });
  return { received, run, sold, delivered, disposed, rungs };
}

function noMass(list: readonly { readonly id: string }[]): Record<string, number> {
  return Object.fromEntries(list.map(({ id }) => [id, 0]));
}
