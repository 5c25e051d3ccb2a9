import { formatMoney } from './figure.js';

/** How far a whole-number solve has come, in one line. */
export function printProgress(progress: {
  readonly seconds: number;
  readonly bound: number;
  readonly best?: number;
  readonly currency: string;
}): string {
  const { seconds, bound, best, currency } = progress;
  const time = `${seconds.toFixed(0)} s`;
  const most = Number.isFinite(bound) ? `; engine's bound ${formatMoney(bound, currency)}` : '';
  if (best === undefined) return `${time}: no plan yet${most}`;
  const gap = Number.isFinite(bound) ? `, ${formatMoney(Math.max(0, bound - best), currency)} above` : '';
  return `${time}: best plan ${formatMoney(best, currency)}${most}${gap}`;
}
