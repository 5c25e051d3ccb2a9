import { Worker } from 'node:worker_threads';
import type { SolveProgress } from '../solver/port.js';
import type { PlanHooks, PlanOutcome, PlanRequest } from './plan-request.js';

/** What the worker is started with. `stopped` holds one flag: 1 asks it to stop. */
export interface WorkerOrder {
  readonly request: PlanRequest;
  readonly stopped: Int32Array<SharedArrayBuffer>;
}

export type WorkerMessage =
  | { readonly kind: 'progress'; readonly progress: SolveProgress }
  | { readonly kind: 'outcome'; readonly outcome: PlanOutcome };

/**
 * Plans a scenario in a worker thread.
 *
 * @throws what the worker throws, or Error where it ends without an answer.
 */
export function planInWorker(
  request: PlanRequest,
  worker: URL,
  currency: string,
  hooks: PlanHooks,
): Promise<PlanOutcome> {
  const stopped = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
  const order: WorkerOrder = { request, stopped };
  return new Promise<PlanOutcome>((resolve, reject) => {
    const thread = new Worker(worker, { workerData: order });
    thread.on('message', (message: WorkerMessage) => {
      if (message.kind === 'progress') hooks.onProgress?.({ ...message.progress, currency });
      else resolve(message.outcome);
    });
    thread.on('error', reject);
    thread.on('exit', (code) => reject(new Error(`the solver's thread ended without an answer (${code})`)));
    hooks.onStart?.(() => {
      Atomics.store(stopped, 0, 1);
    });
  }).finally(() => hooks.onEnd?.());
}
