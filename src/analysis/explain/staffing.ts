import type { Formulation, PlanProgram } from '../../planning/formulate.js';
import { scaleOf } from '../../planning/read/read-plan.js';
import { objectiveAt } from '../../program/linear-program.js';
import type { Solver } from '../../solver/choose.js';
import type { SolveLimits } from '../../solver/port.js';
import { WHOLE_NUMBER_GAP } from '../monthly-plan.js';
import type { StaffingChange, StaffingChanges } from './explanation.js';

/**
 * What a shift more or less is worth, for the windows in which shifts can be called: each a full solve with all other
 * staffing free again, within a gap on the scale S. Present value, exact to what the whole-number solves leave open
 * by the engine's own bounds (`within`).
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
  const { gap = WHOLE_NUMBER_GAP, ...others } = limits;
  const stops = { ...others, gap: 0, absoluteGap: gap * scaleOf(formulation, point) };
  let solves = 0;
  const open = claimedBound === undefined ? 0 : Math.max(0, claimedBound - value);
  const places = shiftsOf(formulation, point);
  const asked = places.slice(0, most).map(({ column, ...place }): StaffingChange => {
    const change = (by: number) => {
      const held = withShifts(formulation.program, column, place.shifts + by);
      if (held === undefined) return undefined;
      solves += 1;
      return bestWith(held, solver, stops);
    };
    const [more, less] = [change(1), change(-1)];
    return {
      ...place,
      ...(more === undefined ? {} : { oneMore: more.value - value }),
      ...(less === undefined ? {} : { oneLess: value - less.value }),
      within: open + Math.max(more?.open ?? 0, less?.open ?? 0),
    };
  });
  return { asked, left: places.length - asked.length, solves };
}

function shiftsOf({ plant, program, columns }: Formulation, point: Float64Array) {
  const places = plant.crews.flatMap((crew, c) =>
    columns.shifts[c].flatMap((months, w) =>
      months.map((column, month) => {
        const shifts = Math.round(point[column]);
        const { length, wageFactor } = plant.windows[w];
        const wages = shifts * length * crew.people * crew.wage[month] * wageFactor;
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

/** The program with a number of shifts held; undefined where there cannot be so many. */
function withShifts(program: PlanProgram, column: number, shifts: number): PlanProgram | undefined {
  if (shifts < program.columnLower[column] || shifts > program.columnUpper[column]) return undefined;
  const columnLower = program.columnLower.slice();
  const columnUpper = program.columnUpper.slice();
  columnLower[column] = shifts;
  columnUpper[column] = shifts;
  return { ...program, columnLower, columnUpper };
}

/** The best value, and what the search left open; undefined where there is no plan, or none within the limits. */
function bestWith(
  program: PlanProgram,
  solver: Solver,
  limits: SolveLimits,
): { readonly value: number; readonly open: number } | undefined {
  const answer = solver.solve(program, limits);
  const found = answer.kind === 'solved' ? answer : answer.kind === 'stopped' ? answer.best : undefined;
  if (found === undefined) return undefined;
  const value = objectiveAt(program, found.answer.primal);
  return { value, open: Math.max(0, (found.answer.bound ?? value) - value) };
}
