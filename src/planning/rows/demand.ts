import type { Plant, PlantDemand, PlantMachine } from '../../plant/plant.js';
import type { Columns, PlanBuilder } from '../columns.js';

/** The month's peak load covers every window that has hours. */
export function addDemand(plant: Plant, columns: Columns, builder: PlanBuilder): void {
  const { demand } = plant;
  if (demand === undefined) return;
  plant.windows.forEach((window, w) => {
    for (const { index: month } of plant.months) {
      if (window.hours[month] === 0) continue;
      if (demand.basis === 'average') addAverageLoad(plant, demand, columns, builder, w, month);
      else addConnectedLoad(plant, demand, columns, builder, w, month);
    }
  });
  if (demand.basis === 'connected') addSwitches(plant, columns, builder);
}

/**
 *     baseLoad + peakToAverage · Σ_k energy·run[k,w,t] / hours[w,t] ≤ peak[t]      (kW)
 */
function addAverageLoad(
  plant: Plant,
  demand: PlantDemand,
  columns: Columns,
  builder: PlanBuilder,
  w: number,
  month: number,
): void {
  const window = plant.windows[w];
  const row = builder.row({ kind: 'peak', window: window.id, month }, { upper: -demand.baseLoad });
  plant.steps.forEach((step, k) => {
    const load = (demand.peakToAverage * step.energy[month]) / window.hours[month];
    if (load > 0) builder.add(row, columns.run[k][w][month], load);
  });
  builder.add(row, columns.peak[month], -1);
}

/**
 *     baseLoad + Σ_r rated[r,t]·on[crew(r),w,t] ≤ peak[t]      (kW)
 *
 * A machine without a crew counts as on.
 */
function addConnectedLoad(
  plant: Plant,
  demand: PlantDemand,
  columns: Columns,
  builder: PlanBuilder,
  w: number,
  month: number,
): void {
  const uncrewed = plant.machines.filter((machine) => machine.crew === undefined);
  const always = uncrewed.reduce((sum, machine) => sum + ratedLoad(plant, machine, month), demand.baseLoad);
  const row = builder.row({ kind: 'peak', window: plant.windows[w].id, month }, { upper: -always });
  for (const machine of plant.machines) {
    const c = plant.crews.findIndex((crew) => crew.id === machine.crew);
    const rated = ratedLoad(plant, machine, month);
    if (c >= 0 && rated > 0) builder.add(row, columns.on[c][w][month], rated);
  }
  builder.add(row, columns.peak[month], -1);
}

/** count · max_k(energy · throughput), kW. Per pass it is the same as net: passes cancel. */
export function ratedLoad(plant: Plant, machine: PlantMachine, month: number): number {
  const loads = plant.steps
    .filter((step) => step.machine === machine.id)
    .map((step) => step.energy[month] * step.throughput[month]);
  return machine.count * Math.max(0, ...loads);
}

/**
 * A crew that attends at all has its machines switched on.
 *
 *     attended[crew,w,t] ≤ hours[w,t]·on[crew,w,t]      (hours)
 */
function addSwitches(plant: Plant, columns: Columns, builder: PlanBuilder): void {
  plant.crews.forEach((crew, c) => {
    plant.windows.forEach((window, w) => {
      for (const { index: month } of plant.months) {
        const row = builder.row({ kind: 'connected', crew: crew.id, window: window.id, month }, { upper: 0 });
        builder.add(row, columns.attended[c][w][month], 1);
        builder.add(row, columns.on[c][w][month], -window.hours[month]);
      }
    });
  });
}
