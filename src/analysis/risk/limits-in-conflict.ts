import type { PlanProgram } from '../../planning/formulate.js';
import { elasticProgram, type GivingBound } from '../../program/elastic.js';
import type { Solver } from '../../solver/choose.js';
import type { Limit } from '../sweep/feasible-range.js';

/** Relative to the largest dual: a limit with a smaller one takes no part. */
const TAKES_PART = 1e-7;

/** Mass or hours: less that must give is rounding. */
const NOTHING = 1e-6;

/**
 * The limits of an infeasible program that stand against each other: as little as possible of all of them together
 * gives way, and those are told that have a price in it (by the duality of linear programs these alone leave no
 * plan). The balances of materials never give. Empty where the relaxation is feasible, or nothing certified.
 */
export function limitsInConflict(program: PlanProgram, solver: Solver): Limit[] {
  const giving = boundsOf(program);
  const elastic = elasticProgram(program, giving);
  const answer = solver.solve(elastic.program);
  if (answer.kind !== 'solved' || answer.certificate.objective <= NOTHING) return [];
  const duals = elastic.rows.map((row) => Math.abs(answer.rowDual[row]));
  const largest = Math.max(...duals);
  const limits = giving.filter((_, k) => duals[k] > TAKES_PART * largest);
  return limits.map(({ kind, index }) =>
    kind === 'row'
      ? { kind: 'row', row: program.rowKeys[index] }
      : { kind: 'bound', column: program.columnKeys[index] },
  );
}

function boundsOf(program: PlanProgram): GivingBound[] {
  const giving: GivingBound[] = [];
  const add = (kind: GivingBound['kind'], index: number, lower: number, upper: number) => {
    if (lower > 0 || (kind === 'row' && Number.isFinite(lower))) giving.push({ kind, index, bound: 'lower' });
    if (Number.isFinite(upper)) giving.push({ kind, index, bound: 'upper' });
  };
  program.rowKeys.forEach(({ kind }, i) => {
    if (kind !== 'balance') add('row', i, program.rowLower[i], program.rowUpper[i]);
  });
  program.columnKeys.forEach((_, j) => {
    add('column', j, program.columnLower[j], program.columnUpper[j]);
  });
  return giving;
}
