import type { Plant, PlantCrew } from '../../plant/plant.js';
import type { Columns, PlanBuilder } from '../columns.js';
import { addHours } from './machines.js';

/**
 * A crew attends each of its machines for as long as it runs.
 *
 *     Σ_k run[k,w,t] / throughput[k,t] / (count·availability) ≤ attended[crew,w,t]      (hours)
 *
 * A machine without availability has no hours to attend (its machine row holds it still).
 */
export function addCrews(plant: Plant, columns: Columns, builder: PlanBuilder): void {
  for (const machine of plant.machines) {
    const c = plant.crews.findIndex((crew) => crew.id === machine.crew);
    if (c < 0) continue;
    plant.windows.forEach((window, w) => {
      for (const { index: month } of plant.months) {
        const atOnce = machine.count * machine.availability[month];
        if (atOnce === 0) continue;
        const row = builder.row(
          { kind: 'crew', machine: machine.id, crew: plant.crews[c].id, window: window.id, month },
          { upper: 0 },
        );
        addHours(plant, columns, builder, { row, machine: machine.id, window: w, month }, 1 / atOnce);
        builder.add(row, columns.attended[c][w][month], -1);
      }
    });
  }
  plant.crews.forEach((crew, c) => {
    if (crew.staffing !== 'hourly') addWholeAttendance(plant, columns, builder, crew, c);
  });
}

/**
 * Crews that are not paid by the hour attend whole windows.
 *
 *     by the shift: attended = length[w]·shifts,  shifts ≤ days[w,t] whole
 *     by the month: attended = hours[w,t]·open,   open ∈ {0, 1}               (hours)
 */
function addWholeAttendance(
  plant: Plant,
  columns: Columns,
  builder: PlanBuilder,
  crew: PlantCrew,
  c: number,
): void {
  plant.windows.forEach((window, w) => {
    for (const { index: month } of plant.months) {
      const key = { kind: 'attendance', crew: crew.id, window: window.id, month } as const;
      const row = builder.row(key, { lower: 0, upper: 0 });
      builder.add(row, columns.attended[c][w][month], 1);
      if (crew.staffing === 'by the shift') builder.add(row, columns.shifts[c][w][month], -window.length);
      else builder.add(row, columns.open[c][w][month], -window.hours[month]);
    }
  });
}
