import type { PlanProgram } from '../../planning/formulate.js';
import { reducedCostOf } from '../../program/affine-change.js';

/** A point of a program whose whole numbers are held, and the duals of the rest. */
export interface HeldPlan {
  readonly primal: Float64Array;
  readonly rowDual: Float64Array;
  readonly value: number;
}

export type HoldStaffing = (staffing: Float64Array) => HeldPlan | undefined;

/** Programs that are tried; each is a warm solve. */
const MOST_TRIALS = 300;
/** Relative to the value: less is no gain. */
const GAIN = 1e-8;

/**
 * A better plan near a first one, by one shift more or fewer at a time, then by one more here for one fewer there.
 * The value of the plan is concave in the whole numbers that are held, so the reduced cost of such a column is
 * the most that one more of it can bring; only what can bring something is tried, the most promising first.
 */
export function searchedStaffing(program: PlanProgram, first: HeldPlan, hold: HoldStaffing): HeldPlan {
  const tried = new Set<string>();
  let best = first;
  for (let better: HeldPlan | undefined = first; better !== undefined; ) {
    best = better;
    better = betterNear(program, best, hold, tried);
  }
  return best;
}

function betterNear(
  program: PlanProgram,
  best: HeldPlan,
  hold: HoldStaffing,
  tried: Set<string>,
): HeldPlan | undefined {
  for (const move of movesOf(program, best)) {
    if (tried.size >= MOST_TRIALS) return undefined;
    const staffing = moved(best.primal, move);
    const name = nameOf(program, staffing);
    if (tried.has(name)) continue;
    tried.add(name);
    const found = hold(staffing);
    if (found !== undefined && found.value - best.value > GAIN * Math.abs(best.value)) return found;
  }
  return undefined;
}

/** Columns that go up or down by one, and the most that it can bring. */
interface Move {
  readonly steps: readonly { readonly column: number; readonly by: 1 | -1 }[];
  readonly most: number;
}

const MOST_SWAPPED = 12;

/** The most promising first, one column at a time before two. */
function movesOf(program: PlanProgram, { primal, rowDual, value }: HeldPlan): Move[] {
  const least = GAIN * Math.abs(value);
  const inOrder = (moves: Move[]) => moves.sort((a, b) => b.most - a.most);
  const singles = { up: [] as Move[], down: [] as Move[] };
  program.integer.forEach((flag, column) => {
    if (flag !== 1) return;
    const at = Math.round(primal[column]);
    const reduced = reducedCostOf(program, column, rowDual);
    const move = (by: 1 | -1): Move => ({ steps: [{ column, by }], most: reduced * by });
    if (at < program.columnUpper[column]) singles.up.push(move(1));
    if (at > program.columnLower[column]) singles.down.push(move(-1));
  });
  const [ups, downs] = [inOrder(singles.up), inOrder(singles.down)];
  const swaps = ups.slice(0, MOST_SWAPPED).flatMap((up) =>
    downs
      .slice(0, MOST_SWAPPED)
      .filter((down) => down.steps[0].column !== up.steps[0].column)
      .map((down): Move => ({ steps: [...up.steps, ...down.steps], most: up.most + down.most })),
  );
  return [...inOrder([...ups, ...downs]), ...inOrder(swaps)].filter(({ most }) => most > least);
}

function moved(primal: Float64Array, { steps }: Move): Float64Array {
  const staffing = primal.slice();
  for (const { column, by } of steps) staffing[column] = Math.round(staffing[column]) + by;
  return staffing;
}

function nameOf(program: PlanProgram, staffing: Float64Array): string {
  return staffing
    .filter((_, j) => program.integer[j] === 1)
    .map(Math.round)
    .join();
}
