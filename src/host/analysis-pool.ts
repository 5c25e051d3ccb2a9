import { fileURLToPath } from 'node:url';
import { MessageChannel } from 'node:worker_threads';
import { Piscina } from 'piscina';
import type { EngineChoice } from '../solver/choose.js';
import type { AnalysisAnswer, AnalysisOrder, AnalysisProgress } from './analysis-order.js';
import type { AnalysisMessage, AnalysisTask } from './analysis-worker.js';

/** Worker threads that answer questions beside the caller. Close it when done. */
export interface AnalysisPool {
  readonly workers: number;
  /** The answer of a stopped order is partial; undefined where it was stopped before it was begun. */
  answer<O extends AnalysisOrder>(
    order: O,
    onProgress?: (progress: AnalysisProgress) => void,
  ): Promise<AnalysisAnswer<O> | undefined>;
  /** Whether it was asked to stop. */
  readonly isStopped: boolean;
  /** Asks everything that runs or waits to stop. */
  stop(): void;
  close(): Promise<void>;
}

export interface AnalysisPoolOptions {
  /** The program of analysis-worker.js. */
  readonly worker: URL;
  readonly workers: number;
  readonly engine?: EngineChoice;
}

export function openAnalysisPool({ worker, workers, engine = 'highs' }: AnalysisPoolOptions): AnalysisPool {
  const pool = new Piscina({
    filename: fileURLToPath(worker),
    minThreads: 0,
    maxThreads: workers,
    idleTimeout: 1000,
  });
  const stopped = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
  const notBegun = new Set<AbortController>();
  const isStopped = () => Atomics.load(stopped, 0) === 1;
  return {
    workers,
    get isStopped() {
      return isStopped();
    },
    async answer<O extends AnalysisOrder>(order: O, onProgress?: (progress: AnalysisProgress) => void) {
      if (isStopped()) return undefined;
      const { port1, port2 } = new MessageChannel();
      const controller = new AbortController();
      notBegun.add(controller);
      port1.on('message', (message: AnalysisMessage) => {
        if (message === 'begun') notBegun.delete(controller);
        else onProgress?.(message);
      });
      port1.unref();
      const task: AnalysisTask = { order, engine, stopped, port: port2 };
      try {
        const { signal } = controller;
        return (await pool.run(task, { transferList: [port2], signal })) as AnalysisAnswer<O>;
      } catch (error) {
        if (controller.signal.aborted) return undefined;
        throw error;
      } finally {
        notBegun.delete(controller);
        port1.close();
      }
    },
    stop() {
      Atomics.store(stopped, 0, 1);
      // A worker that is still starting cannot look at the flag.
      for (const controller of notBegun) controller.abort();
    },
    close: () => pool.destroy(),
  };
}
