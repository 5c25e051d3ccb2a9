import type { LinearProgram } from './linear-program.js';

/** The entries of each row, as column and value, columns rising. */
export function cellsByRow({ matrix, cost, rowLower }: LinearProgram): [number, number][][] {
  const cells: [number, number][][] = Array.from(rowLower, () => []);
  for (let column = 0; column < cost.length; column++) {
    for (let k = matrix.starts[column]; k < matrix.starts[column + 1]; k++) {
      cells[matrix.rows[k]].push([column, matrix.values[k]]);
    }
  }
  return cells;
}
