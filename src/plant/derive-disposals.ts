import { byMaterial, byMonth, type Derivation, ratesByMonth, sortedById } from './derivation.js';
import type { PlantDisposal } from './plant.js';

export function deriveDisposals(derivation: Derivation): PlantDisposal[] {
  return sortedById(derivation.scenario.disposals).map((disposal) => {
    const { id, materials } = disposal;
    return {
      id,
      name: disposal.name ?? id,
      materials: [...materials].sort(),
      charge: byMaterial(materials, (material) => ratesByMonth(derivation, material, disposal.charge)),
      haulage: byMaterial(materials, (material) => ratesByMonth(derivation, material, disposal.haulage)),
      limit: byMonth(derivation, disposal.limit, Number.POSITIVE_INFINITY),
    };
  });
}
