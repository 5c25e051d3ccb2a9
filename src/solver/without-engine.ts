import {
  columnCount,
  hasIntegers,
  type LinearProgram,
  objectiveAt,
  rowCount,
} from '../program/linear-program.js';
import type { EngineAnswer } from './port.js';

/**
 * The answer where no engine is needed: bounds that cross (infeasible, which a session's changes may
 * bring about), or no columns or no rows. undefined for every other program.
 */
export function answerWithoutEngine(program: LinearProgram): EngineAnswer | undefined {
  if (crosses(program.columnLower, program.columnUpper) || crosses(program.rowLower, program.rowUpper)) {
    return { reason: 'infeasible' };
  }
  if (columnCount(program) === 0) return answerWithoutColumns(program);
  if (rowCount(program) === 0) return answerWithoutRows(program);
  return undefined;
}

function crosses(lower: Float64Array, upper: Float64Array): boolean {
  return lower.some((bound, i) => bound > upper[i]);
}

/** Every row's activity is 0. */
function answerWithoutColumns(program: LinearProgram): EngineAnswer {
  const holds = program.rowLower.every((lower, i) => lower <= 0 && program.rowUpper[i] >= 0);
  if (!holds) return { reason: 'infeasible' };
  const rowDual = new Float64Array(rowCount(program));
  return {
    reason: 'optimal',
    primal: new Float64Array(0),
    dual: { rowDual, reducedCost: new Float64Array(0) },
  };
}

/** Each column goes by itself to the bound that its cost asks for. */
function answerWithoutRows(program: LinearProgram): EngineAnswer {
  const sign = program.sense === 'maximize' ? 1 : -1;
  const primal = new Float64Array(columnCount(program));
  let unbounded = false;
  for (let j = 0; j < primal.length; j++) {
    const whole = program.integer[j] === 1;
    const lower = whole ? Math.ceil(program.columnLower[j]) : program.columnLower[j];
    const upper = whole ? Math.floor(program.columnUpper[j]) : program.columnUpper[j];
    if (lower > upper) return { reason: 'infeasible' };
    const gain = sign * program.cost[j];
    const nearestToZero = Math.max(lower, Math.min(upper, 0));
    primal[j] = gain > 0 ? upper : gain < 0 ? lower : nearestToZero;
    unbounded ||= !Number.isFinite(primal[j]);
  }
  if (unbounded) return { reason: 'unbounded' };
  if (hasIntegers(program)) return { reason: 'optimal', primal, bound: objectiveAt(program, primal) };
  return {
    reason: 'optimal',
    primal,
    dual: { rowDual: new Float64Array(0), reducedCost: program.cost.slice() },
  };
}
