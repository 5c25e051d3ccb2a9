import { along, columnOf, type OptimalBasis } from './optimal-basis.js';

/**
 * How far a point stays optimal as costs move, told by one basis. `slope` is d value / dθ up to `end` (θ ≥ 0).
 * `then`: what lies beyond: the next point surely differs (`next`: how each column goes on the way there), the
 * point stays for ever, the value has no bound, or the basis cannot tell.
 */
export interface CostRange {
  readonly slope: number;
  readonly end: number;
  readonly then: 'other point' | 'nothing' | 'unbounded' | 'unknown';
  readonly next?: readonly { readonly column: number; readonly by: number }[];
}

const NEGLIGIBLE = 1e-9;

/** Moves costs by θ · direction · rates for θ ≥ 0 and tells how far the basis stays optimal. */
export function costRange(
  basis: OptimalBasis,
  rates: ReadonlyMap<number, number>,
  direction: 1 | -1,
): CostRange {
  const { factor, sign, columns } = basis;
  const rateOf = (variable: number) => direction * (rates.get(variable) ?? 0);
  const dual = factor.solveTransposed(Float64Array.from(basis.basic, rateOf));
  let slope = 0;
  for (const [column, rate] of rates) slope += direction * rate * basis.value[column];
  const size = [...rates.values()].reduce((most, rate) => Math.max(most, Math.abs(rate)), 1e-300);
  let end = Number.POSITIVE_INFINITY;
  let entering: { readonly variable: number; readonly way: 1 | -1 } | undefined;
  for (let j = 0; j < basis.status.length; j++) {
    if (basis.place[j] >= 0 || basis.lower[j] === basis.upper[j]) continue;
    const moved = (j < columns ? rateOf(j) : 0) - along(columnOf(basis.program, j), dual);
    const speed = sign * moved;
    if (Math.abs(speed) <= NEGLIGIBLE * size) continue;
    const status = basis.status[j];
    const way = status === 'free at zero' ? (speed > 0 ? 1 : -1) : status === 'at upper' ? -1 : 1;
    const ratio = way * speed > 0 ? Math.abs(sign * basis.price[j]) / Math.abs(speed) : undefined;
    if (ratio !== undefined && ratio < end) {
      end = ratio;
      entering = { variable: j, way };
    }
  }
  if (entering === undefined) return { slope, end, then: 'nothing' };
  return { slope, end, ...step(basis, entering.variable, entering.way) };
}

/** The primal ratio test: how far the entering variable goes, and what goes with it. */
function step(basis: OptimalBasis, entering: number, way: 1 | -1): Pick<CostRange, 'then' | 'next'> {
  const { rows, values } = columnOf(basis.program, entering);
  const side = new Float64Array(basis.basic.length);
  for (let k = 0; k < rows.length; k++) side[rows[k]] -= way * values[k];
  const speeds = basis.factor.solve(side);
  const largest = speeds.reduce((most, speed) => Math.max(most, Math.abs(speed)), 1);
  let length = basis.upper[entering] - basis.lower[entering];
  let blocked = false;
  for (let at = 0; at < speeds.length; at++) {
    const speed = speeds[at];
    if (Math.abs(speed) <= NEGLIGIBLE * largest) continue;
    const variable = basis.basic[at];
    const value = basis.value[variable];
    const room = speed > 0 ? basis.upper[variable] - value : value - basis.lower[variable];
    blocked ||= room <= 1e-7 * (1 + Math.abs(value));
    length = Math.min(length, Math.max(0, room) / Math.abs(speed));
  }
  if (length === Number.POSITIVE_INFINITY) return { then: 'unbounded' };
  if (blocked || length === 0) return { then: 'unknown' };
  const next = Array.from(speeds, (speed, at) => ({ column: basis.basic[at], by: speed * length }));
  next.push({ column: entering, by: way * length });
  const moving = next.filter(({ column, by }) => column < basis.columns && Math.abs(by) > NEGLIGIBLE);
  return { then: 'other point', next: moving };
}
