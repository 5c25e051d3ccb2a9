import { formatMoney } from '../figure.js';

const BAR = 20;

/**
 * How far a question has come, in one line: a bar and the time that is left where the end is known, and the
 * estimate so far.
 */
export function printAnalysisProgress(progress: {
  readonly done: number;
  readonly of?: number;
  readonly estimate?: number;
  readonly seconds: number;
  readonly currency: string;
}): string {
  const { done, of, estimate, seconds, currency } = progress;
  const so = estimate === undefined ? '' : `, ${formatMoney(estimate, currency)} so far`;
  if (of === undefined || of === 0) return `${seconds.toFixed(0)} s: ${done} done${so}`;
  const share = Math.min(1, done / of);
  const bar = '#'.repeat(Math.round(BAR * share)).padEnd(BAR, '.');
  const left = done > 0 ? `, ${Math.ceil((seconds / done) * (of - done))} s left` : '';
  return `[${bar}] ${done} of ${of}${left}${so}`;
}
