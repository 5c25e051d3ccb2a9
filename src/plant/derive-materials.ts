import type { Material } from '../scenario/schema/scenario.js';
import { byMonth, type Derivation, rateOf, ratesByMonth, sortedById } from './derivation.js';
import type { PlantMaterial, PlantStock } from './plant.js';

export function deriveMaterials(derivation: Derivation): PlantMaterial[] {
  return sortedById(derivation.scenario.materials).map((material) => {
    const stock = stockOf(derivation, material);
    const { tireMass, heatingValue } = derivation.figures.get(material.id)!;
    return {
      id: material.id,
      name: material.name ?? material.id,
      form: material.form,
      ...(tireMass === undefined ? {} : { tireMass }),
      ...(heatingValue === undefined ? {} : { heatingValue }),
      assay: derivation.chain.assays.get(material.id) ?? {},
      ...(stock === undefined ? {} : { stock }),
    };
  });
}

function stockOf(derivation: Derivation, { id, stock }: Material): PlantStock | undefined {
  if (stock === undefined) return undefined;
  const opening = stock.opening ?? 0;
  return {
    capacity: byMonth(derivation, stock.capacity, Number.POSITIVE_INFINITY),
    min: byMonth(derivation, stock.min, 0),
    opening,
    closingMin: stock.closing?.min ?? opening,
    closingValue: rateOf(derivation, id, stock.closing?.value),
    holdingCost: ratesByMonth(derivation, id, stock.holdingCost),
  };
}
