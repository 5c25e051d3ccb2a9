/**
 * Solves A x = b for a small dense A and each of some right sides, by elimination with row pivoting. A and the
 * sides are left as they are.
 *
 * @throws RangeError when A is singular.
 */
export function solveLinearSystems(
  matrix: readonly (readonly number[])[],
  sides: readonly (readonly number[])[],
): number[][] {
  const size = matrix.length;
  const width = size + sides.length;
  const rows = matrix.map((row, i) => [...row, ...sides.map((side) => side[i])]);
  for (let column = 0; column < size; column++) {
    const pivot = largestBelow(rows, column);
    if (Math.abs(rows[pivot][column]) < 1e-300) throw new RangeError('the system is singular');
    [rows[column], rows[pivot]] = [rows[pivot], rows[column]];
    for (let i = column + 1; i < size; i++) {
      const factor = rows[i][column] / rows[column][column];
      if (factor === 0) continue;
      for (let j = column; j < width; j++) rows[i][j] -= factor * rows[column][j];
    }
  }
  return sides.map((_, side) => substituted(rows, size, size + side));
}

/** The solution of an upper triangle for the right side in a column. */
function substituted(rows: readonly (readonly number[])[], size: number, side: number): number[] {
  const solution = new Array<number>(size).fill(0);
  for (let i = size - 1; i >= 0; i--) {
    let rest = rows[i][side];
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
