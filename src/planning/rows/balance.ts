import type { Plant } from '../../plant/plant.js';
import type { Columns, PlanBuilder } from '../columns.js';

/**
 * What leaves a material's pool in a month equals what enters it.
 *
 *     Σ_k run (input m) + Σ sell + Σ deliver + Σ dispose + stock[m,t]
 *         − Σ receive − Σ_k yield[k,m]·run − stock[m,t−1] = 0,   stock[m,−1] = opening      (mass)
 *
 * The right side is mass that appears for nothing, so the row's dual is the worth of the material.
 */
export function addBalances(plant: Plant, columns: Columns, builder: PlanBuilder): void {
  for (const [position, material] of plant.materials.entries()) {
    for (const { index: month } of plant.months) {
      const opening = month === 0 ? (material.stock?.opening ?? 0) : 0;
      const row = builder.row(
        { kind: 'balance', material: material.id, month },
        { lower: opening, upper: opening },
      );
      addFeedsAndSales(plant, columns, builder, row, material.id, month);
      addSteps(plant, columns, builder, row, material.id, month);
      const stock = columns.stock[position];
      if (stock.length === 0) continue;
      builder.add(row, stock[month], 1);
      if (month > 0) builder.add(row, stock[month - 1], -1);
    }
  }
}

function addFeedsAndSales(
  plant: Plant,
  columns: Columns,
  builder: PlanBuilder,
  row: number,
  material: string,
  month: number,
): void {
  plant.feeds.forEach((feed, f) => {
    if (feed.material === material) builder.add(row, columns.receive[f][month], -1);
  });
  plant.outlets.forEach((outlet, o) => {
    if (outlet.material !== material) return;
    for (const tier of columns.sell[o]) builder.add(row, tier[month], 1);
  });
  plant.contracts.forEach((contract, c) => {
    const m = contract.materials.indexOf(material);
    if (m >= 0) builder.add(row, columns.deliver[c][m][month], 1);
  });
  plant.disposals.forEach((disposal, d) => {
    const m = disposal.materials.indexOf(material);
    if (m >= 0) builder.add(row, columns.dispose[d][m][month], 1);
  });
}

function addSteps(
  plant: Plant,
  columns: Columns,
  builder: PlanBuilder,
  row: number,
  material: string,
  month: number,
): void {
  plant.steps.forEach((step, k) => {
    const made = step.yields.find((output) => output.material === material)?.share ?? 0;
    const net = (step.input === material ? 1 : 0) - made;
    if (net === 0) return;
    for (const window of columns.run[k]) builder.add(row, window[month], net);
  });
}
