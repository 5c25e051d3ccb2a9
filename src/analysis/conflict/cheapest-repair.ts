import type { Formulation } from '../../planning/formulate.js';
import { type Elastic, elasticProgram, type GivingBound, givenWay, sideOf } from '../../program/elastic.js';
import { type LinearProgram, objectiveAt } from '../../program/linear-program.js';
import type { Solver } from '../../solver/choose.js';
import type { SolveLimits } from '../../solver/port.js';
import { solveFormulation } from '../monthly-plan.js';
import type { Repair, RepairWeights } from './conflict.js';
import type { Member } from './members.js';

/** What gives less than this, relative, gives for rounding. */
const NOTHING = 1e-7;
/** Share by which the least weight may be passed when the best plan among equal repairs is sought. */
const EQUAL = 1e-7;
/** Bounds give this much more than they must, relative, so that rounding leaves a plan. */
const ROUNDING = [1e-9, 1e-7, 1e-6];

/** How far the repaired plan's whole numbers are searched unless the caller says: it shows that there is one. */
const REPAIRED: SolveLimits = { gap: 1e-3, seconds: 10 };

/**
 * The cheapest repair: minimize Σ weight · what gives; among those of least weight the one with the largest present
 * value; then the plan with the bounds moved by that and no more, certified against it.
 *
 * @returns undefined where a solve did not certify.
 */
export function cheapestRepair(
  formulation: Formulation,
  members: readonly Member[],
  weights: RepairWeights,
  solver: Solver,
  limits: SolveLimits,
): { readonly repair: Repair; readonly solves: number } | undefined {
  const { program } = formulation;
  const giving = members.flatMap(({ bounds }) => bounds);
  const elastic = elasticProgram(program, giving);
  const weighted = weightedProgram(elastic, members, weights);
  const cheapest = solver.solve(weighted, limits);
  if (cheapest.kind !== 'solved') return undefined;
  const least = objectiveAt(weighted, cheapest.answer.primal);
  const best = bestOfEqual(program, elastic, weighted, least);
  const { point = cheapest.answer.primal, solves } = withoutRounding(best, weighted, least, (asked) => {
    const answer = solver.solve(asked, limits);
    return answer.kind === 'solved' ? answer.answer.primal : undefined;
  });
  const amounts = elastic.gives.map((column, i) =>
    wholly(program, giving[i], cleaned(point[column], sideOf(program, giving[i]))),
  );
  const gives = givesOf(members, amounts);
  const repair = { gives, weights, weight: weightOf(gives, weights) };
  for (const [i, rounding] of ROUNDING.entries()) {
    const moved = amounts.map((by, k) =>
      by === 0 ? 0 : by + rounding * (1 + Math.abs(sideOf(program, giving[k]))),
    );
    const repaired = { ...formulation, program: givenWay(program, giving, moved) };
    const answer = solveFormulation(repaired, solver, { ...REPAIRED, ...limits });
    if ('solved' in answer) return { repair: { ...repair, planned: answer }, solves: 2 + solves + i };
  }
  return { repair, solves: 1 + solves + ROUNDING.length };
}

/**
 * The point of the best among equal repairs. The share by which the least weight may be passed lets a limit give a
 * little that no other limit needs: then once more without.
 */
function withoutRounding(
  best: LinearProgram,
  weighted: LinearProgram<unknown, unknown>,
  least: number,
  solve: (program: LinearProgram) => Float64Array | undefined,
): { readonly point?: Float64Array; readonly solves: number } {
  const point = solve(best);
  if (point === undefined) return { solves: 1 };
  const columnUpper = best.columnUpper.slice();
  weighted.cost.forEach((weight, column) => {
    if (weight > 0 && weight * point[column] <= 100 * passed(least)) columnUpper[column] = 0;
  });
  const without = solve({ ...best, columnUpper });
  return { point: without ?? point, solves: 2 };
}

function passed(least: number): number {
  return EQUAL * (1 + least);
}

function weightedProgram<R, C>(
  elastic: Elastic<R, C>,
  members: readonly Member[],
  weights: RepairWeights,
): Elastic<R, C>['program'] {
  const cost = new Float64Array(elastic.program.cost.length);
  let position = 0;
  for (const { limit, bounds, each } of members) {
    for (const _ of bounds) cost[elastic.gives[position++]] = weights[limit.kind] * each;
  }
  return { ...elastic.program, cost };
}

/** Maximize present value with the weight of what gives at its least. */
function bestOfEqual<R, C>(
  program: LinearProgram<R, C>,
  elastic: Elastic<R, C>,
  weighted: Elastic<R, C>['program'],
  least: number,
): LinearProgram {
  const { matrix } = weighted;
  const row = weighted.rowKeys.length;
  const starts = new Int32Array(matrix.starts.length);
  const rows: number[] = [];
  const values: number[] = [];
  for (let j = 0; j < weighted.cost.length; j++) {
    for (let k = matrix.starts[j]; k < matrix.starts[j + 1]; k++) {
      rows.push(matrix.rows[k]);
      values.push(matrix.values[k]);
    }
    if (weighted.cost[j] !== 0) {
      rows.push(row);
      values.push(weighted.cost[j]);
    }
    starts[j + 1] = rows.length;
  }
  const cost = new Float64Array(weighted.cost.length);
  cost.set(program.cost);
  return {
    ...elastic.program,
    sense: program.sense,
    offset: program.offset,
    cost,
    rowKeys: [...weighted.rowKeys, 'weight'],
    rowLower: Float64Array.from([...weighted.rowLower, Number.NEGATIVE_INFINITY]),
    rowUpper: Float64Array.from([...weighted.rowUpper, least + passed(least)]),
    matrix: { starts, rows: Int32Array.from(rows), values: Float64Array.from(values) },
  };
}

function cleaned(amount: number, bound: number): number {
  return amount <= NOTHING * (1 + Math.abs(bound)) ? 0 : amount;
}

/** Days of a crew give as whole ones. */
function wholly(program: LinearProgram, { kind, index }: GivingBound, amount: number): number {
  return kind === 'column' && program.integer[index] === 1 ? Math.ceil(amount) : amount;
}

function givesOf(members: readonly Member[], amounts: readonly number[]): Repair['gives'] {
  let position = 0;
  return members.flatMap(({ limit, unit, amount, bounds, ways, each }) => {
    const own = bounds.map(() => amounts[position++] * each);
    return own.flatMap((by, i) => (by === 0 ? [] : [{ limit, unit, amount, by, to: amount + ways[i] * by }]));
  });
}

function weightOf(gives: Repair['gives'], weights: RepairWeights): number {
  return gives.reduce((sum, { limit, by }) => sum + weights[limit.kind] * by, 0);
}
