import { fileURLToPath } from 'node:url';
import { MessageChannel } from 'node:worker_threads';
import { Piscina } from 'piscina';
import type { EngineChoice } from '../solver/choose.js';
import type { AnalysisAnswer, AnalysisOrder, AnalysisProgress } from './analysis-order.js';
import type { AnalysisTask } from './analysis-worker.js';

/** Worker threads that answer questions beside the caller. Close it when done. */
export interface AnalysisPool {
  readonly workers: number;
  /** Progress of one order; the answer of a stopped order is partial, or says that there is none. */
  answer<O extends AnalysisOrder>(
    order: O,
    onProgress?: (progress: AnalysisProgress) => void,
  ): Promise<AnalysisAnswer<O>>;
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
  return {
    workers,
    async answer<O extends AnalysisOrder>(order: O, onProgress?: (progress: AnalysisProgress) => void) {
      const { port1, port2 } = new MessageChannel();
      port1.on('message', (progress: AnalysisProgress) => onProgress?.(progress));
      port1.unref();
      const task: AnalysisTask = { order, engine, stopped, port: port2 };
      try {
        return (await pool.run(task, { transferList: [port2] })) as AnalysisAnswer<O>;
      } finally {
        port1.close();
      }
    },
    stop() {
      Atomics.store(stopped, 0, 1);
    },
    close: () => pool.destroy(),
  };
}
