import type { Formulation } from '../../planning/formulate.js';
import { columnOf } from '../../program/basis/optimal-basis.js';
import { primalRatio } from '../../program/basis/primal-ratio.js';
import type { LinearProgram } from '../../program/linear-program.js';
import { type Ranger, returnToStart, solveVariant, VariantUnanswered } from '../ranging/ranger.js';
import type { WouldTake, WouldTakeKey } from './explanation.js';

/** Shares on the two sides of the answer at which it is confirmed, relative. */
const BESIDE = 1e-4;

/**
 * The share of a step's output that would have to be its most worthy product in place of its least worthy one
 * for the step to come in: δ = −d / (worth of one − worth of the other). With the step off the basis, this
 * stays optimal up to δ, and is left there if the step can then enter; else confirmed by a solve just below, which
 * must gain nothing, and one just above, which must gain. Absent where all of the output would not do, or
 * where the duals are not the only ones and the solves do not confirm it.
 */
export function yieldToComeIn(
  formulation: Formulation,
  ranger: Ranger,
  { step: id, month }: Extract<WouldTakeKey, { kind: 'step' }>,
): WouldTake['yield'] {
  const { plant, columns } = formulation;
  const k = plant.steps.findIndex((step) => step.id === id);
  const outputs = plant.steps[k].yields
    .filter(({ share }) => share > 0)
    .map(({ material, share }) => ({ material, share, row: balanceRow(formulation, material, month) }))
    .sort((a, b) => ranger.rowDual[b.row] - ranger.rowDual[a.row]);
  const best = outputs[0];
  const worst = outputs.at(-1);
  if (worst === undefined || outputs.length < 2) return undefined;
  const runs = columns.run[k]
    .filter((_, w) => plant.windows[w].hours[month] > 0)
    .map((window) => window[month]);
  const losses = runs.map((column) => lossOf(ranger, column));
  const loss = Math.min(...losses);
  const share = loss / (ranger.rowDual[best.row] - ranger.rowDual[worst.row]);
  if (!(share > 0 && share <= worst.share)) return undefined;
  const answer = { output: best.material, givesWay: worst.material, share };
  if (entersByBasis(ranger, runs, runs[losses.indexOf(loss)], [best.row, worst.row], share)) return answer;
  const gains = (at: number) => gainAt(ranger, runs, best.row, worst.row, at);
  try {
    returnToStart(ranger);
    const confirmed = !gains(share * (1 - BESIDE)) && gains(share * (1 + BESIDE));
    return confirmed ? answer : undefined;
  } catch (error) {
    if (error instanceof VariantUnanswered) return undefined;
    throw error;
  }
}

function entersByBasis(
  { basis, program }: Ranger,
  runs: readonly number[],
  entering: number,
  [more, less]: readonly [number, number],
  share: number,
): boolean {
  if (basis === undefined || runs.some((column) => basis.place[column] >= 0)) return false;
  const moved = withShareMoved(program, [entering], more, less, share);
  return primalRatio(basis, entering, 1, columnOf(moved, entering)).beyond === 'other point';
}

function gainAt(ranger: Ranger, runs: readonly number[], more: number, less: number, share: number): boolean {
  const variant = withShareMoved(ranger.program, runs, more, less, share);
  return solveVariant(ranger, variant).value > ranger.value + ranger.tolerance;
}

/** The balances' coefficients of the columns: a share of the output is one material instead of the other. */
function withShareMoved(
  program: LinearProgram,
  runs: readonly number[],
  more: number,
  less: number,
  share: number,
): LinearProgram {
  const { starts, rows } = program.matrix;
  const values = program.matrix.values.slice();
  for (const column of runs) {
    for (let k = starts[column]; k < starts[column + 1]; k++) {
      if (rows[k] === more) values[k] -= share;
      if (rows[k] === less) values[k] += share;
    }
  }
  return { ...program, matrix: { ...program.matrix, values } };
}

function lossOf({ program, rowDual }: Ranger, column: number): number {
  const { starts, rows, values } = program.matrix;
  let reduced = program.cost[column];
  for (let k = starts[column]; k < starts[column + 1]; k++) reduced -= values[k] * rowDual[rows[k]];
  return Math.max(0, -reduced);
}

function balanceRow({ program }: Formulation, material: string, month: number): number {
  return program.rowKeys.findIndex(
    (key) => key.kind === 'balance' && key.material === material && key.month === month,
  );
}
