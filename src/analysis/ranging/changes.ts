import { type AffineChange, NO_CHANGE } from '../../program/affine-change.js';
import type { LinearProgram } from '../../program/linear-program.js';

/** One unit more on the bounds that a row has: d right side / dθ = 1. */
export function rowChange(program: LinearProgram, row: number): AffineChange {
  return {
    ...NO_CHANGE,
    rowLower: Number.isFinite(program.rowLower[row]) ? new Map([[row, 1]]) : new Map(),
    rowUpper: Number.isFinite(program.rowUpper[row]) ? new Map([[row, 1]]) : new Map(),
  };
}

/** One unit more on one bound of a column. */
export function columnChange(column: number, bound: 'lower' | 'upper'): AffineChange {
  const rates = new Map([[column, 1]]);
  return bound === 'lower' ? { ...NO_CHANGE, columnLower: rates } : { ...NO_CHANGE, columnUpper: rates };
}
