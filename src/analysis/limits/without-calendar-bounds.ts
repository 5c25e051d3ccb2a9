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
  const rowUpper = program.rowUpper.slice();
  plant.crews.forEach((crew, c) => {
    if (crew.staffing !== 'hourly') return;
    for (const window of columns.attended[c]) lift(columnUpper, window);
  });
  program.rowKeys.forEach((key, row) => {
    if (key.kind !== 'connected') return;
    const crew = plant.crews.findIndex(({ id }) => id === key.crew);
    const window = plant.windows.findIndex(({ id }) => id === key.window);
    const isOn = program.columnLower[columns.on[crew][window][key.month]] === 1;
    // attended ≤ hours·on is the same bound once more where the machines are held switched on.
    if (isOn && plant.crews[crew].staffing === 'hourly') rowUpper[row] = Number.POSITIVE_INFINITY;
  });
  return { ...formulation, program: { ...program, columnUpper, rowUpper } };
}

/**
 * The formulation with the calendar's bounds on all attendance lifted: what must give where there is no plan are
 * machine-hours and the days of crews, which then bring hours beyond the window's, as a second crew would.
 */
export function withoutAttendanceBounds(formulation: Formulation): Formulation {
  const { program, columns } = formulation;
  const columnUpper = program.columnUpper.slice();
  for (const windows of [...columns.attended, ...columns.on]) {
    for (const window of windows) lift(columnUpper, window ?? []);
  }
  return { ...formulation, program: { ...program, columnUpper } };
}

function lift(columnUpper: Float64Array, columns: readonly number[]): void {
  for (const column of columns) columnUpper[column] = Number.POSITIVE_INFINITY;
}
