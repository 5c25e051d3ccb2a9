import type { RowKey } from '../../planning/keys.js';
import type { LinearProgram } from '../../program/linear-program.js';
import type { Limit } from '../sweep/feasible-range.js';
import { LIMIT_ROWS } from './bottlenecks.js';
import type { OfferProgram } from './offer-program.js';
import type { OfferSolver } from './offer-solver.js';
import { type TakeKey, withShares } from './signed-shares.js';

/** What part of an offer's volumes can be served together with all other promises, and what stops the rest. */
export interface ServedPart {
  /** Of all its minimums and maximums alike, 0 to 1. */
  readonly share: number;
  /** The limits and promises that cannot all be kept at a larger share. */
  readonly limits: readonly Limit[];
}

/** Relative to the largest dual: a limit with a smaller one does not hold the share. */
const HOLDS = 1e-7;

/** Undefined where there is no plan even without the offer. @throws Unfinished */
export function servedPart(
  { formulation, contract }: OfferProgram,
  solver: OfferSolver,
): ServedPart | undefined {
  const counted = { ...formulation, program: solver.counted(formulation.program) };
  const shared = withShares(counted, new Map([[contract.id, { lower: 0, upper: 1, whole: false }]]));
  const program: LinearProgram<TakeKey, unknown> = {
    ...shared.program,
    offset: 0,
    cost: shared.program.cost.map((_, j) => (j === shared.take.get(contract.id) ? 1 : 0)),
  };
  const solved = solver.alone(program);
  if (solved === undefined) return undefined;
  const share = solved.answer.primal[shared.take.get(contract.id) as number];
  const largest = solved.rowDual.reduce((most, dual) => Math.max(most, Math.abs(dual)), 0);
  const rows = program.rowKeys.flatMap((row, i): Limit[] =>
    Math.abs(solved.rowDual[i]) > HOLDS * largest && LIMIT_ROWS.has(row.kind as RowKey['kind'])
      ? [{ kind: 'row', row: row as RowKey }]
      : [],
  );
  const columns = formulation.program.columnKeys.flatMap((column, j): Limit[] => {
    const { starts, rows: at, values } = program.matrix;
    let reduced = program.cost[j];
    for (let k = starts[j]; k < starts[j + 1]; k++) reduced -= values[k] * solved.rowDual[at[k]];
    return Math.abs(reduced) > HOLDS * largest && isLimit(program, j, solved.answer.primal[j])
      ? [{ kind: 'bound', column }]
      : [];
  });
  return { share, limits: [...rows, ...columns] };
}

/** At an upper bound, or at a lower one that somebody set. */
function isLimit({ columnUpper, columnLower }: LinearProgram, j: number, value: number): boolean {
  const near = (bound: number) => Math.abs(value - bound) <= 1e-6 * (1 + Math.abs(bound));
  return (
    (Number.isFinite(columnUpper[j]) && near(columnUpper[j])) || (columnLower[j] > 0 && near(columnLower[j]))
  );
}
