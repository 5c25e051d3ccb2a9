import { type AffineChange, NO_CHANGE } from '../../program/affine-change.js';
import type { LimitKey, LimitUnit, PlanLimit } from './plan-limit.js';

/** The limit that a row carries: one unit more moves the bounds of its sense. */
export function ofRow(
  key: LimitKey,
  unit: LimitUnit,
  sense: PlanLimit['sense'],
  amount: number,
  index: number,
): PlanLimit {
  const rates = new Map([[index, 1]]);
  const change: AffineChange = {
    ...NO_CHANGE,
    ...(sense === 'upper' ? {} : { rowLower: rates }),
    ...(sense === 'lower' ? {} : { rowUpper: rates }),
  };
  return { key, unit, amount, sense, place: { kind: 'row', index }, change };
}

/** The limit that a bound of a column is. */
export function ofColumn(
  key: LimitKey,
  unit: LimitUnit,
  sense: 'lower' | 'upper',
  amount: number,
  index: number,
): PlanLimit {
  const rates = new Map([[index, 1]]);
  const change = { ...NO_CHANGE, ...(sense === 'lower' ? { columnLower: rates } : { columnUpper: rates }) };
  return { key, unit, amount, sense, place: { kind: 'column', index }, change };
}
