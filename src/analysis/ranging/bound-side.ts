import { type AffineChange, slopeAlong } from '../../program/affine-change.js';
import { type BasisRange, type BoundOf, boundRange } from '../../program/basis/bound-range.js';
import { endOfLine, firstStretch, type Support } from '../../program/first-stretch.js';
import { columnCount, type LinearProgram } from '../../program/linear-program.js';
import { furthestParameter } from '../../program/parameter.js';
import {
  type Point,
  type Ranger,
  returnToStart,
  solveApart,
  solveVariant,
  supportAt,
  tried,
  VariantUnanswered,
} from './ranger.js';

/**
 * One side of a value as bounds move by θ ≥ 0: straight with `slope` = d value / dθ up to `end` (Infinity: for
 * ever), beyond which it bends or nothing is feasible; or infeasible at once, with the bounds that rule it out;
 * or unanswered, where a solve did not certify.
 */
export type BoundSide =
  | {
      readonly kind: 'straight';
      readonly slope: number;
      readonly end: number;
      readonly beyond: 'bend' | 'infeasible' | 'nothing';
    }
  | { readonly kind: 'infeasible'; readonly proof: readonly BoundOf[] }
  | { readonly kind: 'unanswered' };

export interface SideOptions {
  /** Of the figures that move: a stretch below 1e-7 of it is none. */
  readonly size: number;
  /** Where the figures stop making sense: nothing is asked beyond. */
  readonly reach?: number;
}

/**
 * The one-sided derivative of the optimal value as bounds move by θ · direction · change, and how far it holds:
 * from the basis where that settles it, else by exact re-solves along supporting lines.
 */
export function boundSide(
  ranger: Ranger,
  change: AffineChange,
  direction: 1 | -1,
  { size, reach = Number.POSITIVE_INFINITY }: SideOptions,
): BoundSide {
  const shortest = 1e-7 * (1 + Math.abs(size));
  const told = ranger.basis === undefined ? undefined : boundRange(ranger.basis, change, direction);
  const settled = told === undefined ? undefined : settledBy(told, shortest, reach);
  if (settled !== undefined) return settled;
  try {
    returnToStart(ranger);
    return bySolving(ranger, change, direction, { size, shortest, reach, told });
  } catch (error) {
    if (error instanceof VariantUnanswered || error instanceof RangeError) return { kind: 'unanswered' };
    throw error;
  }
}

function settledBy(told: BasisRange, shortest: number, reach: number): BoundSide | undefined {
  const { slope, end, beyond } = told;
  if (end >= reach && reach > shortest) return { kind: 'straight', slope, end: reach, beyond: 'nothing' };
  if (beyond === 'infeasible' && end <= shortest) return { kind: 'infeasible', proof: told.proof ?? [] };
  if (beyond === 'unknown' || end <= shortest) return undefined;
  return { kind: 'straight', slope, end, beyond };
}

interface Context {
  readonly size: number;
  readonly shortest: number;
  readonly reach: number;
  readonly told: BasisRange | undefined;
}

function bySolving(ranger: Ranger, change: AffineChange, direction: 1 | -1, context: Context): BoundSide {
  const { shortest, told } = context;
  const { tolerance, value } = ranger;
  const options = { tolerance, shortest };
  const reach = reachOf(ranger, change, direction, context);
  if ('proof' in reach) return { kind: 'infeasible', proof: reach.proof };
  const { far, furthest } = reach;
  const evaluate = (at: number) => supportAt(ranger, change, direction, at);
  const known = told !== undefined && told.end > shortest;
  const found = known
    ? { slope: told.slope, ...endOfLine(evaluate, { value, slope: told.slope }, far, options) }
    : firstStretch(
        evaluate,
        { value, slope: direction * slopeAlong(ranger.program, change, ranger) },
        far,
        options,
      );
  if (found.next !== undefined)
    return { kind: 'straight', slope: found.slope, end: found.end, beyond: 'bend' };
  const beyond = furthest === context.reach ? 'nothing' : 'infeasible';
  return { kind: 'straight', slope: found.slope, end: furthest, beyond };
}

type Reach =
  | { readonly far: Support<Point>; readonly furthest: number }
  | { readonly proof: readonly BoundOf[] };

/** The value at the far end of the side: with the bounds gone where they only give way, else as far as is feasible. */
function reachOf(
  ranger: Ranger,
  change: AffineChange,
  direction: 1 | -1,
  { size, shortest, reach }: Context,
): Reach {
  if (Number.isFinite(reach)) {
    const far = tried(() => supportAt(ranger, change, direction, reach));
    if (far !== undefined) return { far, furthest: reach };
  }
  if (reach === Number.POSITIVE_INFINITY && onlyGivesWay(change, direction)) {
    const unlimited = tried(() => solveVariant(ranger, withoutBounds(ranger.program, change)));
    if (unlimited !== undefined) {
      const far = { at: Number.POSITIVE_INFINITY, value: unlimited.value, slope: 0, from: unlimited };
      return { far, furthest: Number.POSITIVE_INFINITY };
    }
    return { far: distant(ranger, change, direction, size), furthest: Number.POSITIVE_INFINITY };
  }
  const furthest = furthestFeasible(ranger, change, direction);
  if (furthest.at <= shortest) return { proof: furthest.proof };
  if (furthest.at === Number.POSITIVE_INFINITY) {
    return { far: distant(ranger, change, direction, size), furthest: furthest.at };
  }
  for (const short of [0, 1e-9, 1e-7, 1e-5]) {
    const far = nearEnd(() => supportAt(ranger, change, direction, furthest.at * (1 - short)));
    if (far !== undefined) return { far, furthest: furthest.at };
  }
  throw new VariantUnanswered('uncertified');
}

/** At the very end of what is feasible rounding may leave no certified point. */
function nearEnd(solve: () => Support<Point>): Support<Point> | undefined {
  try {
    return solve();
  } catch (error) {
    if (error instanceof VariantUnanswered && error.outcome !== 'stopped') return undefined;
    throw error;
  }
}

/** Far out on a side that has no end: the value goes on in a line there. */
function distant(ranger: Ranger, change: AffineChange, direction: 1 | -1, size: number): Support<Point> {
  return supportAt(ranger, change, direction, 1e4 * (1 + Math.abs(size)));
}

function onlyGivesWay(change: AffineChange, direction: 1 | -1): boolean {
  const outwards = (rates: ReadonlyMap<number, number>, way: 1 | -1) =>
    [...rates.values()].every((rate) => way * direction * rate >= 0);
  return (
    change.offset === 0 &&
    outwards(change.rowUpper, 1) &&
    outwards(change.columnUpper, 1) &&
    outwards(change.rowLower, -1) &&
    outwards(change.columnLower, -1)
  );
}

function withoutBounds(program: LinearProgram, change: AffineChange): LinearProgram {
  const without = (bounds: Float64Array, rates: ReadonlyMap<number, number>, to: number) => {
    if (rates.size === 0) return bounds;
    const result = bounds.slice();
    for (const at of rates.keys()) result[at] = to;
    return result;
  };
  return {
    ...program,
    columnLower: without(program.columnLower, change.columnLower, Number.NEGATIVE_INFINITY),
    columnUpper: without(program.columnUpper, change.columnUpper, Number.POSITIVE_INFINITY),
    rowLower: without(program.rowLower, change.rowLower, Number.NEGATIVE_INFINITY),
    rowUpper: without(program.rowUpper, change.rowUpper, Number.POSITIVE_INFINITY),
  };
}

/** How far the bounds can move until nothing is feasible, and the bounds that end it. */
function furthestFeasible(ranger: Ranger, change: AffineChange, direction: 1 | -1) {
  const program = furthestParameter(ranger.program, change, direction);
  const answer = solveApart(ranger, program);
  if (answer.kind === 'unbounded') return { at: Number.POSITIVE_INFINITY, proof: [] };
  if (answer.kind !== 'solved') throw new VariantUnanswered(answer.kind);
  const columns = columnCount(ranger.program);
  const proof: BoundOf[] = [];
  const { rowDual } = answer;
  program.rowKeys.forEach((key, row) => {
    if (Math.abs(rowDual[row]) <= 1e-9) return;
    if (key.kind === 'row') {
      proof.push({ variable: columns + key.row, bound: rowDual[row] > 0 ? 'upper' : 'lower' });
    } else {
      proof.push({ variable: key.kind === 'moving row' ? columns + key.at : key.at, bound: key.bound });
    }
  });
  const { starts, rows, values } = program.matrix;
  program.columnKeys.forEach((key, j) => {
    if (key.kind !== 'column') return;
    let reduced = program.cost[j];
    for (let k = starts[j]; k < starts[j + 1]; k++) reduced -= values[k] * rowDual[rows[k]];
    if (Math.abs(reduced) > 1e-9) proof.push({ variable: j, bound: reduced > 0 ? 'upper' : 'lower' });
  });
  return { at: Math.max(0, answer.answer.primal[columns]), proof };
}
