/** Medians of repeated timings, and a printed table; figures are printed, never asserted. */
export function median(figures: readonly number[]): number {
  const sorted = [...figures].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

export function quantile(figures: readonly number[], share: number): number {
  const sorted = [...figures].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
}

/** Milliseconds of each of `runs` calls, after `warmup` uncounted ones. */
export function timed(call: () => void, runs: number, warmup = 1): number[] {
  for (let i = 0; i < warmup; i++) call();
  return Array.from({ length: runs }, () => {
    const started = performance.now();
    call();
    return performance.now() - started;
  });
}

export function printTable(title: string, rows: readonly Readonly<Record<string, string | number>>[]): void {
  const names = Object.keys(rows[0] ?? {});
  const cells = rows.map((row) => names.map((name) => format(row[name])));
  const widths = names.map((name, i) => Math.max(name.length, ...cells.map((row) => row[i].length)));
  const line = (row: readonly string[]) => row.map((cell, i) => cell.padStart(widths[i])).join('  ');
  process.stdout.write(`\n${title}\n${line(names)}\n${cells.map(line).join('\n')}\n`);
}

function format(cell: string | number): string {
  if (typeof cell === 'string') return cell;
  return Number.isInteger(cell) ? String(cell) : cell.toFixed(cell < 10 ? 2 : 1);
}
