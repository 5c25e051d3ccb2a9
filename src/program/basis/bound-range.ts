import type { AffineChange } from '../affine-change.js';
import { along, columnOf, type OptimalBasis } from './optimal-basis.js';

/**
 * How far a value stays on one straight line as bounds move, told by one basis. `slope` is d value / dθ up to
 * `end` (θ ≥ 0). `beyond`: what lies beyond: the slope surely changes, no point is feasible any more, nothing
 * (the line goes on for ever), or the basis cannot tell.
 */
export interface BasisRange {
  readonly slope: number;
  readonly end: number;
  readonly beyond: 'bend' | 'infeasible' | 'nothing' | 'unknown';
  /** Where nothing is feasible beyond: the bounds that together rule it out. */
  readonly proof?: readonly BoundOf[];
}

/** One bound of a variable of the basis. */
export interface BoundOf {
  readonly variable: number;
  readonly bound: 'lower' | 'upper';
}

/** A price below it, relative to the prices about, is none; a value off its bound by less, relative, is on it. */
const NEGLIGIBLE = 1e-9;

/**
 * Moves bounds, and the constant of the objective, by θ · direction · change for θ ≥ 0 (direction 1 or −1) and tells how far the basis stays
 * optimal. The end is exact: the first basic variable that meets a bound. Where its dual ratio is positive the
 * slope must change there, since y − t·ρ then proves a lower line.
 */
export function boundRange(basis: OptimalBasis, change: AffineChange, direction: 1 | -1): BasisRange {
  const moves = movesOf(basis, change, direction);
  let slope = direction * change.offset;
  let crossing = Number.POSITIVE_INFINITY;
  let crossed = 0;
  const side = new Float64Array(basis.basic.length);
  for (const [variable, { lower, upper }] of moves) {
    if (basis.place[variable] >= 0) continue;
    const speed = leaning(basis, variable) === 'upper' ? upper : lower;
    slope += basis.price[variable] * speed;
    const cross = meeting(basis.upper[variable] - basis.lower[variable], lower - upper);
    if (cross < crossing) [crossing, crossed] = [cross, variable];
    addColumn(side, basis, variable, -speed);
  }
  const speeds = basis.factor.solve(side);
  const { end, leaving, toUpper } = firstToMeet(basis, speeds, moves);
  if (crossing <= end && Number.isFinite(crossing)) {
    const proof = (['lower', 'upper'] as const).map((bound) => ({ variable: crossed, bound }));
    return { slope, end: crossing, beyond: 'infeasible', proof };
  }
  if (leaving === undefined) return { slope, end, beyond: 'nothing' };
  return { slope, end, ...dualRatio(basis, leaving, toUpper, moves) };
}

/**
 * Whether a basic variable can take no more than it has in this basis, whatever else gives: its row then says that
 * all others are at bounds that hold it.
 */
export function isAtMost(basis: OptimalBasis, variable: number): boolean {
  const place = basis.place[variable];
  return place >= 0 && dualRatio(basis, place, false, new Map()).beyond === 'infeasible';
}

/** Speeds of the bounds of the variables that move. */
type Moves = ReadonlyMap<number, { readonly lower: number; readonly upper: number }>;

function movesOf(basis: OptimalBasis, change: AffineChange, direction: 1 | -1): Moves {
  if (change.matrix.size > 0 || change.cost.size > 0) throw new RangeError('only bounds may move');
  const moves = new Map<number, { lower: number; upper: number }>();
  const move = (variable: number, side: 'lower' | 'upper', rate: number) => {
    const before = moves.get(variable) ?? { lower: 0, upper: 0 };
    moves.set(variable, { ...before, [side]: rate * direction });
  };
  for (const [j, rate] of change.columnLower) move(j, 'lower', rate);
  for (const [j, rate] of change.columnUpper) move(j, 'upper', rate);
  for (const [i, rate] of change.rowLower) move(basis.columns + i, 'lower', rate);
  for (const [i, rate] of change.rowUpper) move(basis.columns + i, 'upper', rate);
  return moves;
}

/** The ratio test: the first basic variable to meet one of its bounds. */
function firstToMeet(basis: OptimalBasis, speeds: Float64Array, moves: Moves) {
  let end = Number.POSITIVE_INFINITY;
  let leaving: number | undefined;
  let toUpper = false;
  const size = speeds.reduce((most, speed) => Math.max(most, Math.abs(speed)), 1e-300);
  for (let at = 0; at < speeds.length; at++) {
    const variable = basis.basic[at];
    const move = moves.get(variable);
    const speed = Math.abs(speeds[at]) <= NEGLIGIBLE * size ? 0 : speeds[at];
    const value = basis.value[variable];
    const up = meeting(room(basis.upper[variable] - value, value), speed - (move?.upper ?? 0));
    const down = meeting(room(value - basis.lower[variable], value), (move?.lower ?? 0) - speed);
    if (Math.min(up, down) < end) {
      end = Math.min(up, down);
      leaving = at;
      toUpper = up < down;
    }
  }
  return { end, leaving, toUpper };
}

/** Room to a bound, none where it is lost in rounding. */
function room(distance: number, value: number): number {
  return distance <= NEGLIGIBLE * (1 + Math.abs(value)) ? 0 : distance;
}

/** When two that are `distance` apart and close in at `speed` meet. */
function meeting(distance: number, speed: number): number {
  return speed > 0 ? distance / speed : Number.POSITIVE_INFINITY;
}

/** The bound that a variable off the basis stands at; of two that are one, the one that its price asks for. */
function leaning(basis: OptimalBasis, variable: number): 'lower' | 'upper' {
  if (basis.lower[variable] === basis.upper[variable]) {
    return basis.sign * basis.price[variable] > 0 ? 'upper' : 'lower';
  }
  return basis.status[variable] === 'at upper' ? 'upper' : 'lower';
}

/** The dual ratio test of the variable that leaves. */
function dualRatio(
  basis: OptimalBasis,
  leaving: number,
  toUpper: boolean,
  moves: Moves,
): Pick<BasisRange, 'beyond' | 'proof'> {
  const unit = new Float64Array(basis.basic.length);
  unit[leaving] = 1;
  const row = basis.factor.solveTransposed(unit);
  const side = toUpper ? 1 : -1;
  let ratio = Number.POSITIVE_INFINITY;
  const proof: BoundOf[] = [{ variable: basis.basic[leaving], bound: toUpper ? 'upper' : 'lower' }];
  for (let j = 0; j < basis.status.length; j++) {
    if (basis.place[j] >= 0) continue;
    const alpha = side * along(basis.program, j, row);
    if (Math.abs(alpha) <= NEGLIGIBLE) continue;
    proof.push({ variable: j, bound: alpha > 0 ? 'upper' : 'lower' });
    const fixed = basis.lower[j] === basis.upper[j] && !widens(moves, j);
    const free = basis.status[j] === 'free at zero';
    // What leaves is driven back by a variable that goes up from its lower bound or down from its upper one.
    const gives = free || (leaning(basis, j) === 'lower' ? alpha > 0 : alpha < 0);
    if (gives && !fixed) ratio = Math.min(ratio, Math.abs(basis.price[j]) / Math.abs(alpha));
  }
  if (ratio === Number.POSITIVE_INFINITY) return { beyond: 'infeasible', proof };
  return { beyond: ratio > NEGLIGIBLE * basis.priceSize ? 'bend' : 'unknown' };
}

function widens(moves: Moves, variable: number): boolean {
  const move = moves.get(variable);
  return move !== undefined && move.upper > move.lower;
}

function addColumn(side: Float64Array, basis: OptimalBasis, variable: number, factor: number): void {
  const { rows, values } = columnOf(basis.program, variable);
  for (let k = 0; k < rows.length; k++) side[rows[k]] += factor * values[k];
}
