import type { Plant } from '../../plant/plant.js';
import { discountFactor } from '../discount.js';
import type { PlanProgram } from '../formulate.js';
import type { MaterialWorth } from '../plan.js';

/** What one more tonne of each material adds to the margin: the duals of the balances. */
export function worthOf(plant: Plant, program: PlanProgram, rowDual: Float64Array): MaterialWorth[] {
  const presentValue = new Map(plant.materials.map((material) => [material.id, plant.months.map(() => 0)]));
  program.rowKeys.forEach((key, row) => {
    if (key.kind === 'balance') presentValue.get(key.material)?.splice(key.month, 1, rowDual[row]);
  });
  return plant.materials.map(({ id }) => {
    const values = presentValue.get(id) ?? [];
    return {
      material: id,
      byMonth: values.map((value, month) => value / discountFactor(plant, month)),
      presentValue: values,
    };
  });
}
