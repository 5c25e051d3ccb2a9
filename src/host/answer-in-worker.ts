import type { SolveProgress } from '../solver/port.js';
import type { PlanHooks } from './plan-request.js';

/** A request to one of the functions of plan-worker.js. */
export interface WorkerRequest<Request> {
  readonly name: 'plan' | 'explain';
  readonly request: Request;
  /** Of the amounts that the progress tells. */
  readonly currency: string;
}

/**
 * Answers a request in a worker thread.
 *
 * @param program plan-worker.js
 * @throws what the thread throws, or Error where it ends without an answer.
 */
export async function answerInWorker<Request, Outcome>(
  { name, request, currency }: WorkerRequest<Request>,
  program: URL,
  { onStart, onProgress, onEnd }: PlanHooks,
): Promise<Outcome> {
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
    return await pool.work<Request, SolveProgress, Outcome>(name, request, {
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
