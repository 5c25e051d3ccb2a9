import type { Formulation } from '../../planning/formulate.js';

/**
 * The formulation with the calendar's bound on hourly attendance lifted. It follows from the hours of the
 * machines attended (available ≤ hours · count · availability), so the plans are the same; but where a machine
 * runs all hours the two bind as one, and an hour more of the machine would be worth nothing for want of an
 * hour in the calendar. Without it an hour more of a machine comes with its crew.
 */
export function withoutCalendarBounds(formulation: Formulation): Formulation {
  const { plant, program, columns } = formulation;
  const columnUpper = program.columnUpper.slice();
  plant.crews.forEach((crew, c) => {
    if (crew.staffing !== 'hourly') return;
    for (const window of columns.attended[c]) {
      for (const column of window) columnUpper[column] = Number.POSITIVE_INFINITY;
    }
  });
  return { ...formulation, program: { ...program, columnUpper } };
}
