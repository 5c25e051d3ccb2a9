import type { Formulation } from '../../planning/formulate.js';
import { objectiveAt } from '../../program/linear-program.js';
import type { Solver } from '../../solver/choose.js';
import type { SolveLimits } from '../../solver/port.js';
import { WHOLE_NUMBER_GAP } from '../monthly-plan.js';
import type { StaffingChange, StaffingChanges } from './explanation.js';

/**
 * What a shift more or less is worth, for the windows in which the plan staffs some but not all days: each a full
 * solve with all other staffing free again. Present value, exact to the gap of a whole-number solve.
 *
 * @param formulation with its whole numbers free.
 * @param most windows to ask, in the order of the largest wages first.
 */
export function staffingChanges(
  formulation: Formulation,
  point: Float64Array,
  solver: Solver,
  limits: SolveLimits,
  most: number,
): StaffingChanges & { readonly solves: number } {
  const value = objectiveAt(formulation.program, point);
  const places = shiftsOf(formulation, point);
  const asked = places.slice(0, most).map(({ column, ...place }): StaffingChange => {
    const change = (by: number) => valueWithShifts(formulation, solver, limits, column, place.shifts + by);
    const [more, less] = [change(1), change(-1)];
    return {
      ...place,
      ...(more === undefined ? {} : { oneMore: more - value }),
      ...(less === undefined ? {} : { oneLess: value - less }),
    };
  });
  return { asked, left: places.length - asked.length, solves: 2 * asked.length };
}

function shiftsOf({ plant, program, columns }: Formulation, point: Float64Array) {
  const places = plant.crews.flatMap((crew, c) =>
    columns.shifts[c].flatMap((months, w) =>
      months.map((column, month) => {
        const shifts = Math.round(point[column]);
        const wages = shifts * plant.windows[w].length * crew.people * crew.wage[month];
        const place = { crew: crew.id, window: plant.windows[w].id, month, shifts, column };
        return { place, wages, most: program.columnUpper[column] };
      }),
    ),
  );
  return places
    .filter(({ place, most }) => place.shifts > 0 || most > 0)
    .sort((a, b) => b.wages - a.wages)
    .map(({ place }) => place);
}

function valueWithShifts(
  { program }: Formulation,
  solver: Solver,
  limits: SolveLimits,
  column: number,
  shifts: number,
): number | undefined {
  if (shifts < program.columnLower[column] || shifts > program.columnUpper[column]) return undefined;
  const columnLower = program.columnLower.slice();
  const columnUpper = program.columnUpper.slice();
  columnLower[column] = shifts;
  columnUpper[column] = shifts;
  const answer = solver.solve({ ...program, columnLower, columnUpper }, { gap: WHOLE_NUMBER_GAP, ...limits });
  return answer.kind === 'solved' ? objectiveAt(program, answer.answer.primal) : undefined;
}
