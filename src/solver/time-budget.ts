import type { SolveLimits } from './port.js';

/** One time for several solves: each call gives the limits with the seconds that are left. */
export function timeBudget(limits: SolveLimits): () => SolveLimits {
  const { seconds } = limits;
  if (seconds === undefined) return () => limits;
  const started = performance.now();
  return () => ({ ...limits, seconds: Math.max(0, seconds - (performance.now() - started) / 1000) });
}
