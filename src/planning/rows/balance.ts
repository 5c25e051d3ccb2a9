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
    const rows = plant.months.map(({ index: month }) => {
      const opening = month === 0 ? (material.stock?.opening ?? 0) : 0;
      const key = { kind: 'balance', material: material.id, month } as const;
      return builder.row(key, { lower: opening, upper: opening });
    });
    const enter = (byMonth: readonly number[], factor: number) => {
      for (const [month, row] of rows.entries()) builder.add(row, byMonth[month], factor);
    };
    addFeedsAndSales(plant, columns, material.id, enter);
    addSteps(plant, columns, material.id, enter);
    const stock = columns.stock[position];
    if (stock.length === 0) continue;
    enter(stock, 1);
    rows.slice(1).forEach((row, month) => {
      builder.add(row, stock[month], -1);
    });
  }
}

/** Adds factor · column to the row of each month. */
type Enter = (byMonth: readonly number[], factor: number) => void;

function addFeedsAndSales(plant: Plant, columns: Columns, material: string, enter: Enter): void {
  plant.feeds.forEach((feed, f) => {
    if (feed.material === material) enter(columns.receive[f], -1);
  });
  plant.outlets.forEach((outlet, o) => {
    if (outlet.material !== material) return;
    for (const tier of columns.sell[o]) enter(tier, 1);
  });
  plant.contracts.forEach((contract, c) => {
    const m = contract.materials.indexOf(material);
    if (m >= 0) enter(columns.deliver[c][m], 1);
  });
  plant.disposals.forEach((disposal, d) => {
    const m = disposal.materials.indexOf(material);
    if (m >= 0) enter(columns.dispose[d][m], 1);
  });
}

function addSteps(plant: Plant, columns: Columns, material: string, enter: Enter): void {
  plant.steps.forEach((step, k) => {
    const made = step.yields.find((output) => output.material === material)?.share ?? 0;
    const net = (step.input === material ? 1 : 0) - made;
    if (net === 0) return;
    for (const window of columns.run[k]) enter(window, net);
  });
}
