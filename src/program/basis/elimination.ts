/** Entries of a sparse column of L or U. */
export interface Entries {
  readonly at: number[];
  readonly values: number[];
}

/** Takes the earlier columns out of the work vector in the order of their steps; the entries of U. */
export function eliminate(
  work: Float64Array,
  touched: number[],
  lower: readonly Entries[],
  stepOfRow: Int32Array,
): Entries {
  const seen = new Set(touched);
  const pending = new StepQueue();
  for (const row of touched) if (stepOfRow[row] >= 0) pending.push(stepOfRow[row], row);
  const at: number[] = [];
  const values: number[] = [];
  for (let next = pending.pop(); next !== undefined; next = pending.pop()) {
    const value = work[next.row];
    if (value === 0) continue;
    at.push(next.step);
    values.push(value);
    const { at: rows, values: factors } = lower[next.step];
    for (let k = 0; k < rows.length; k++) {
      const row = rows[k];
      if (!seen.has(row)) {
        seen.add(row);
        touched.push(row);
        if (stepOfRow[row] >= 0) pending.push(stepOfRow[row], row);
      }
      work[row] -= factors[k] * value;
    }
  }
  return { at, values };
}

/** Steps still to be taken out, the earliest first: a binary heap. */
class StepQueue {
  private readonly heap: { readonly step: number; readonly row: number }[] = [];

  push(step: number, row: number): void {
    const { heap } = this;
    heap.push({ step, row });
    for (let i = heap.length - 1; i > 0; ) {
      const parent = (i - 1) >> 1;
      if (heap[parent].step <= heap[i].step) break;
      [heap[parent], heap[i]] = [heap[i], heap[parent]];
      i = parent;
    }
  }

  pop(): { readonly step: number; readonly row: number } | undefined {
    const { heap } = this;
    const first = heap[0];
    const last = heap.pop();
    if (last === undefined || heap.length === 0) return first;
    heap[0] = last;
    for (let i = 0; ; ) {
      let least = i;
      for (const child of [2 * i + 1, 2 * i + 2]) {
        if (child < heap.length && heap[child].step < heap[least].step) least = child;
      }
      if (least === i) return first;
      [heap[least], heap[i]] = [heap[i], heap[least]];
      i = least;
    }
  }
}
