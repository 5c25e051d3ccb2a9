import type { EngineChoice } from '../solver/choose.js';
import type { AnalysisAnswer, AnalysisOrder, AnalysisProgress } from './analysis-order.js';
import type { AnalysisWork } from './analysis-worker.js';
import { ThreadFailure, ThreadPool } from './thread-pool.js';

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
  const pool = new ThreadPool({ program: worker, threads: workers });
  const stop = new AbortController();
  return {
    workers,
    get isStopped() {
      return stop.signal.aborted;
    },
    async answer<O extends AnalysisOrder>(order: O, onProgress?: (progress: AnalysisProgress) => void) {
      if (stop.signal.aborted) return undefined;
      const work: AnalysisWork = { order, engine };
      try {
        return await pool.work<AnalysisWork, AnalysisProgress, AnalysisAnswer<O>>('answer', work, {
          signal: stop.signal,
          onProgress,
        });
      } catch (error) {
        if (!(error instanceof ThreadFailure)) throw error;
        if (error.reason === 'cancelled') return undefined;
        throw error.cause;
      }
    },
    stop: () => stop.abort(),
    close: () => pool.close(),
  };
}
