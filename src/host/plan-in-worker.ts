import type { SolveProgress } from '../solver/port.js';
import type { PlanHooks, PlanOutcome, PlanRequest } from './plan-request.js';

/**
 * Plans a scenario in a worker thread.
 *
 * @param program plan-worker.js
 * @throws what the thread throws, or Error where it ends without an answer.
 */
export async function planInWorker(
  request: PlanRequest,
  program: URL,
  currency: string,
  { onStart, onProgress, onEnd }: PlanHooks,
): Promise<PlanOutcome> {
  const stop = new AbortController();
  let isBegun = false;
  let isUnwanted = false;
  // Whoever stops it before it is begun still gets an answer.
  onStart?.(() => {
    isUnwanted = true;
    if (isBegun) stop.abort();
  });
  // Most plans need no thread: only those that do wait for the pool to load.
  const { ThreadFailure, ThreadPool } = await import('./thread-pool.js');
  const pool = new ThreadPool({ program, threads: 1 });
  try {
    return await pool.work<PlanRequest, SolveProgress, PlanOutcome>('plan', request, {
      signal: stop.signal,
      onStart: () => {
        isBegun = true;
        if (isUnwanted) stop.abort();
      },
      onProgress: (progress) => onProgress?.({ ...progress, currency }),
    });
  } catch (error) {
    throw error instanceof ThreadFailure && error.cause !== undefined ? error.cause : error;
  } finally {
    onEnd?.();
    await pool.close();
  }
}
