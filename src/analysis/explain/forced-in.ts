import { discountFactor } from '../../planning/discount.js';
import type { Formulation } from '../../planning/formulate.js';
import { boundRange, isAtMost } from '../../program/basis/bound-range.js';
import { ProgramBuilder } from '../../program/builder.js';
import { type LinearProgram, objectiveAt } from '../../program/linear-program.js';
import { columnChange } from '../ranging/changes.js';
import {
  type Ranger,
  returnToStart,
  solveApart,
  solveVariant,
  tried,
  VariantUnanswered,
} from '../ranging/ranger.js';
import type { WouldTake } from './explanation.js';
import type { UnusedOption } from './unused-option.js';

/**
 * What the best plan loses, in money of the month, when a mass unit more (or what there is room for, if less) must
 * go somewhere. Absent where there is no plan with it.
 *
 * @throws VariantUnanswered where a solve did not certify.
 */
export function forcedIn(
  { plant }: Formulation,
  ranger: Ranger,
  { columns, could, what }: UnusedOption,
  used: number,
): WouldTake['forced'] {
  const mass = Math.min(1, could - used);
  const factor = discountFactor(plant, what.month);
  if (columns.length === 1 && isOutOfReach(ranger, columns[0], used + mass)) return undefined;
  const told = used === 0 ? toldByBasis(ranger, columns, mass) : undefined;
  if (told === 'no plan') return undefined;
  const loss = told ?? lossBySolving(ranger, columns, used + mass);
  if (loss === undefined) return undefined;
  return { mass, loss: Math.abs(loss) <= ranger.tolerance ? 0 : loss / factor };
}

/** Whether the basis shows that a column cannot come up to a mass. */
function isOutOfReach({ basis }: Ranger, column: number, mass: number): boolean {
  if (basis === undefined || mass <= basis.value[column] + 1e-6 * (1 + mass)) return false;
  return isAtMost(basis, column);
}

/** Where the cheapest of the columns can take all of it on a straight stretch, it is the cheapest way of all. */
function toldByBasis(
  ranger: Ranger,
  columns: readonly number[],
  mass: number,
): number | 'no plan' | undefined {
  const { basis } = ranger;
  if (basis === undefined || columns.some((column) => basis.place[column] >= 0)) return undefined;
  const [cheapest] = [...columns].sort((a, b) => Math.abs(basis.price[a]) - Math.abs(basis.price[b]));
  const { slope, end, beyond } = boundRange(basis, columnChange(cheapest, 'lower'), 1);
  if (end >= mass) return -slope * mass;
  return beyond === 'infeasible' && columns.length === 1 ? 'no plan' : undefined;
}

/** One column has its lower bound raised; several have one row more: together at least so much. */
function lossBySolving(ranger: Ranger, columns: readonly number[], mass: number): number | undefined {
  if (columns.length === 1) {
    returnToStart(ranger);
    const columnLower = ranger.program.columnLower.slice();
    columnLower[columns[0]] = mass;
    const point = tried(() => solveVariant(ranger, { ...ranger.program, columnLower }));
    return point === undefined ? undefined : ranger.value - point.value;
  }
  const forced = withTotal(ranger.program, columns, mass);
  const answer = solveApart(ranger, forced);
  if (answer.kind === 'infeasible') return undefined;
  if (answer.kind !== 'solved') throw new VariantUnanswered(answer.kind);
  return ranger.value - objectiveAt(forced, answer.answer.primal);
}

function withTotal(program: LinearProgram, columns: readonly number[], mass: number): LinearProgram {
  const builder = new ProgramBuilder(program.sense);
  builder.addOffset(program.offset);
  program.columnKeys.forEach((key, j) => {
    builder.column(key, {
      lower: program.columnLower[j],
      upper: program.columnUpper[j],
      cost: program.cost[j],
    });
  });
  program.rowKeys.forEach((key, i) => {
    builder.row(key, { lower: program.rowLower[i], upper: program.rowUpper[i] });
  });
  const { starts, rows, values } = program.matrix;
  for (let j = 0; j + 1 < starts.length; j++) {
    for (let k = starts[j]; k < starts[j + 1]; k++) builder.add(rows[k], j, values[k]);
  }
  const total = builder.row('forced', { lower: mass });
  for (const column of columns) builder.add(total, column, 1);
  return builder.build();
}
