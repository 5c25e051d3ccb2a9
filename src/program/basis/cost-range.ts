import { along, type OptimalBasis } from './optimal-basis.js';
import { primalRatio } from './primal-ratio.js';

/**
 * How far a point stays optimal as costs move, told by one basis. `slope` is d value / dθ up to `end` (θ ≥ 0).
 * `beyond`: what lies beyond: the next point surely differs (`next`: how each column goes on the way there), the
 * point stays for ever, the value has no bound, or the basis cannot tell.
 */
export interface CostRange {
  readonly slope: number;
  readonly end: number;
  readonly beyond: 'other point' | 'nothing' | 'unbounded' | 'unknown';
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
    const moved = (j < columns ? rateOf(j) : 0) - along(basis.program, j, dual);
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
  if (entering === undefined) return { slope, end, beyond: 'nothing' };
  return { slope, end, ...primalRatio(basis, entering.variable, entering.way) };
}
