import type { LinearProgram } from '../program/linear-program.js';
import type { DualPoint } from './port.js';

/** Row duals y with the reduced costs that follow from them: cost − Aᵀy, from the program's own coefficients. */
export function dualPoint(program: LinearProgram, rowDual: Float64Array): DualPoint {
  const { starts, rows, values } = program.matrix;
  const reducedCost = program.cost.slice();
  for (let j = 0; j < reducedCost.length; j++) {
    for (let k = starts[j]; k < starts[j + 1]; k++) reducedCost[j] -= values[k] * rowDual[rows[k]];
  }
  return { rowDual, reducedCost };
}
