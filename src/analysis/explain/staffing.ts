import type { Formulation } from '../../planning/formulate.js';
import { objectiveAt } from '../../program/linear-program.js';
import type { Solver } from '../../solver/choose.js';
import type { SolveLimits } from '../../solver/port.js';
import { WHOLE_NUMBER_GAP } from '../monthly-plan.js';
import type { StaffingChange, StaffingChanges } from './explanation.js';

/**
 * What a shift more or less is worth, for the windows in which the plan staffs some but not all days: each a full
 * solve with all other staffing free again. Present value, exact to what the whole-number solves leave open by the
 * engine's own bounds (`within`).
 *
 * @param formulation with its whole numbers free.
 * @param claimedBound of the plan's own solve.
 * @param most windows to ask, in the order of the largest wages first.
 */
export function staffingChanges(
  formulation: Formulation,
  point: Float64Array,
  solver: Solver,
  limits: SolveLimits,
  most: number,
  claimedBound: number | undefined,
): StaffingChanges & { readonly solves: number } {
  const value = objectiveAt(formulation.program, point);
  const open = claimedBound === undefined ? 0 : Math.max(0, claimedBound - value);
  const places = shiftsOf(formulation, point);
  const asked = places.slice(0, most).map(({ column, ...place }): StaffingChange => {
    const change = (by: number) => valueWithShifts(formulation, solver, limits, column, place.shifts + by);
    const [more, less] = [change(1), change(-1)];
    return {
      ...place,
      ...(more === undefined ? {} : { oneMore: more.value - value }),
      ...(less === undefined ? {} : { oneLess: value - less.value }),
      within: open + Math.max(more?.open ?? 0, less?.open ?? 0),
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
): { readonly value: number; readonly open: number } | undefined {
  if (shifts < program.columnLower[column] || shifts > program.columnUpper[column]) return undefined;
  const columnLower = program.columnLower.slice();
  const columnUpper = program.columnUpper.slice();
  columnLower[column] = shifts;
  columnUpper[column] = shifts;
  const answer = solver.solve({ ...program, columnLower, columnUpper }, { gap: WHOLE_NUMBER_GAP, ...limits });
  if (answer.kind !== 'solved') return undefined;
  const value = objectiveAt(program, answer.answer.primal);
  return { value, open: Math.max(0, (answer.answer.bound ?? value) - value) };
}
