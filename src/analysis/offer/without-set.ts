import type { LinearProgram } from '../../program/linear-program.js';
import type { TakeKey } from './signed-shares.js';

/**
 * A program of shares in which the yes-or-no offers are not all decided as in a set:
 *
 *     Σ over the signed of (1 − take) + Σ over the others of take ≥ 1
 *
 * `decided`: the column of each yes-or-no offer, and whether the set signs it.
 */
export function withoutSet(
  program: LinearProgram<TakeKey, unknown>,
  decided: ReadonlyMap<number, boolean>,
): LinearProgram<TakeKey, unknown> {
  const row = program.rowLower.length;
  const { starts, rows, values } = program.matrix;
  const newStarts = new Int32Array(starts.length);
  const newRows: number[] = [];
  const newValues: number[] = [];
  for (let j = 0; j < program.cost.length; j++) {
    for (let k = starts[j]; k < starts[j + 1]; k++) {
      newRows.push(rows[k]);
      newValues.push(values[k]);
    }
    const isSigned = decided.get(j);
    if (isSigned !== undefined) {
      newRows.push(row);
      newValues.push(isSigned ? -1 : 1);
    }
    newStarts[j + 1] = newRows.length;
  }
  const signed = [...decided.values()].filter((isSigned) => isSigned).length;
  return {
    ...program,
    rowKeys: [...program.rowKeys, { kind: 'take', contract: '' }],
    rowLower: Float64Array.from([...program.rowLower, 1 - signed]),
    rowUpper: Float64Array.from([...program.rowUpper, Number.POSITIVE_INFINITY]),
    matrix: { starts: newStarts, rows: Int32Array.from(newRows), values: Float64Array.from(newValues) },
  };
}
