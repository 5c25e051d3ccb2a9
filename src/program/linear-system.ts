/**
 * Solves A x = b for a small dense A by elimination with row pivoting. A and b are left as they are.
 *
 * @throws RangeError when A is singular.
 */
export function solveLinearSystem(matrix: readonly (readonly number[])[], side: readonly number[]): number[] {
  const size = side.length;
  const rows = matrix.map((row, i) => [...row, side[i]]);
  for (let column = 0; column < size; column++) {
    const pivot = largestBelow(rows, column);
    if (Math.abs(rows[pivot][column]) < 1e-300) throw new RangeError('the system is singular');
    [rows[column], rows[pivot]] = [rows[pivot], rows[column]];
    for (let i = column + 1; i < size; i++) {
      const factor = rows[i][column] / rows[column][column];
      if (factor === 0) continue;
      for (let j = column; j <= size; j++) rows[i][j] -= factor * rows[column][j];
    }
  }
  const solution = new Array<number>(size).fill(0);
  for (let i = size - 1; i >= 0; i--) {
    let rest = rows[i][size];
    for (let j = i + 1; j < size; j++) rest -= rows[i][j] * solution[j];
    solution[i] = rest / rows[i][i];
  }
  return solution;
}

function largestBelow(rows: readonly (readonly number[])[], column: number): number {
  let best = column;
  for (let i = column + 1; i < rows.length; i++) {
    if (Math.abs(rows[i][column]) > Math.abs(rows[best][column])) best = i;
  }
  return best;
}
