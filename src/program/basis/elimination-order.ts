/** A sparse column: values at rows. */
export interface SparseColumn {
  readonly rows: ArrayLike<number>;
  readonly values: ArrayLike<number>;
}

/**
 * Columns in the order of elimination: as long as there is a row that only one of the columns left uses, or a
 * column that has only one row left, that pair goes first; of the rest those with the fewest entries.
 */
export function eliminationOrder(columns: readonly SparseColumn[]): Int32Array {
  const size = columns.length;
  const order: number[] = [];
  const users: number[][] = Array.from({ length: size }, () => []);
  const left = new Int32Array(size);
  columns.forEach(({ rows }, j) => {
    left[j] = rows.length;
    for (let k = 0; k < rows.length; k++) users[rows[k]].push(j);
  });
  const done = new Uint8Array(size);
  const rowDone = new Uint8Array(size);
  const single: number[] = [];
  left.forEach((count, j) => {
    if (count === 1) single.push(j);
  });
  for (let j = single.pop(); j !== undefined; j = single.pop()) {
    if (done[j] === 1) continue;
    const row = Array.from(columns[j].rows).find((candidate) => rowDone[candidate] === 0);
    if (row === undefined) continue;
    done[j] = 1;
    rowDone[row] = 1;
    order.push(j);
    for (const other of users[row]) {
      left[other] -= 1;
      if (left[other] === 1 && done[other] === 0) single.push(other);
    }
  }
  const rest = Array.from({ length: size }, (_, j) => j).filter((j) => done[j] === 0);
  rest.sort((a, b) => left[a] - left[b] || a - b);
  return Int32Array.from([...order, ...rest]);
}

/** How many entries each row has. */
export function rowCounts(columns: readonly SparseColumn[]): Int32Array {
  const counts = new Int32Array(columns.length);
  for (const { rows } of columns) for (let k = 0; k < rows.length; k++) counts[rows[k]] += 1;
  return counts;
}
