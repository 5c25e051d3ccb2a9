import type { Plant } from '../../plant/plant.js';
import type { Columns, PlanBuilder } from '../columns.js';

/**
 * Materials that share a room.
 *
 *     Σ_m stock[m,t] ≤ capacity      (mass)
 */
export function addStores(plant: Plant, columns: Columns, builder: PlanBuilder): void {
  for (const store of plant.stores) {
    for (const { index: month } of plant.months) {
      const row = builder.row({ kind: 'store', store: store.id, month }, { upper: store.capacity });
      plant.materials.forEach((material, m) => {
        if (store.materials.includes(material.id)) builder.add(row, columns.stock[m][month], 1);
      });
    }
  }
}

/**
 * What a disposal takes in a month.
 *
 *     Σ_m dispose[d,m,t] ≤ limit      (mass)
 */
export function addDisposals(plant: Plant, columns: Columns, builder: PlanBuilder): void {
  plant.disposals.forEach((disposal, d) => {
    for (const { index: month } of plant.months) {
      if (!Number.isFinite(disposal.limit[month])) continue;
      const row = builder.row(
        { kind: 'disposal', disposal: disposal.id, month },
        { upper: disposal.limit[month] },
      );
      for (const material of columns.dispose[d]) builder.add(row, material[month], 1);
    }
  });
}
