import { columnOf, type OptimalBasis, type SparseColumn } from './optimal-basis.js';

/**
 * Where a basis goes when a variable off it enters: `other point` after a step of some length, with what each
 * column gains; `unbounded` where nothing stops it; `unknown` where a basic variable is at its bound already, so
 * that the step may have no length.
 */
export interface PrimalRatio {
  readonly beyond: 'other point' | 'unbounded' | 'unknown';
  readonly next?: readonly { readonly column: number; readonly by: number }[];
}

const NEGLIGIBLE = 1e-9;
/** A basic variable counts as at its bound within this, relative. */
const AT_BOUND = 1e-7;

/**
 * The primal ratio test: how far the entering variable goes up (way 1) or down (−1), and what goes with it.
 *
 * @param column of the entering variable, where it is another one than the program's.
 */
export function primalRatio(
  basis: OptimalBasis,
  entering: number,
  way: 1 | -1,
  column: SparseColumn = columnOf(basis.program, entering),
): PrimalRatio {
  const { rows, values } = column;
  const side = new Float64Array(basis.basic.length);
  for (let k = 0; k < rows.length; k++) side[rows[k]] -= way * values[k];
  const speeds = basis.factor.solve(side);
  const largest = speeds.reduce((most, speed) => Math.max(most, Math.abs(speed)), 1);
  let length = basis.upper[entering] - basis.lower[entering];
  for (let at = 0; at < speeds.length; at++) {
    const speed = speeds[at];
    if (Math.abs(speed) <= NEGLIGIBLE * largest) continue;
    const variable = basis.basic[at];
    const value = basis.value[variable];
    const room = speed > 0 ? basis.upper[variable] - value : value - basis.lower[variable];
    if (room <= AT_BOUND * (1 + Math.abs(value))) return { beyond: 'unknown' };
    length = Math.min(length, room / Math.abs(speed));
  }
  if (length === Number.POSITIVE_INFINITY) return { beyond: 'unbounded' };
  if (length === 0) return { beyond: 'unknown' };
  const next = Array.from(speeds, (speed, at) => ({ column: basis.basic[at], by: speed * length }));
  next.push({ column: entering, by: way * length });
  const moving = next.filter(({ column, by }) => column < basis.columns && Math.abs(by) > NEGLIGIBLE);
  return { beyond: 'other point', next: moving };
}
