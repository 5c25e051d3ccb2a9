import type { Plant } from '../../plant/plant.js';
import type { Columns, PlanBuilder } from '../columns.js';

/**
 * The steps on a machine share its hours in each window.
 *
 *     Σ_k run[k,w,t] / throughput[k,t] ≤ available[r,w,t]      (machine-hours)
 */
export function addMachines(plant: Plant, columns: Columns, builder: PlanBuilder): void {
  for (const machine of plant.machines) {
    plant.windows.forEach((window, w) => {
      for (const { index: month } of plant.months) {
        const row = builder.row(
          { kind: 'machine', machine: machine.id, window: window.id, month },
          { upper: machine.available[w][month] },
        );
        addHours(plant, columns, builder, { row, machine: machine.id, window: w, month }, 1);
      }
    });
  }
}

/** Adds factor · Σ_k run / throughput of a machine's steps to a row. */
export function addHours(
  plant: Plant,
  columns: Columns,
  builder: PlanBuilder,
  place: { row: number; machine: string; window: number; month: number },
  factor: number,
): void {
  plant.steps.forEach((step, k) => {
    if (step.machine !== place.machine) return;
    const run = columns.run[k][place.window][place.month];
    builder.add(place.row, run, factor / step.throughput[place.month]);
  });
}
