import { MessageChannel } from 'node:worker_threads';
import { Piscina } from 'piscina';
import type { JsonReading } from '../scenario/read-json.js';
import type { Check, Order, OrderHooks, OrderReply } from './order.js';
import { type QuestionRunner, RunnerFailure } from './question-runner.js';
import type { OrderTask, TaskMessage } from './question-worker.js';

export interface WorkerRunnerOptions {
  /** The program of question-worker.js. */
  readonly program: URL;
  /** Threads that solve. */
  readonly threads: number;
  /** Orders that may wait for one. */
  readonly waiting: number;
  /** Megabytes of memory that a thread may use before it is ended. */
  readonly megabytes: number;
  /** Seconds that an order may take beyond its own limit before its thread is ended. */
  readonly grace: number;
}

/** Texts that may wait to be read; reading one takes milliseconds. */
const READS_WAITING = 256;

/**
 * Answers in worker threads; reading has a thread of its own, so that it never waits for a solve. A thread that
 * dies, or that has to be ended, is replaced.
 */
export function workerRunner(options: WorkerRunnerOptions): QuestionRunner {
  const shared = {
    filename: options.program.href,
    resourceLimits: { maxOldGenerationSizeMb: options.megabytes },
    atomics: 'disabled',
  } as const;
  const solvers = new Piscina({
    ...shared,
    minThreads: options.threads,
    maxThreads: options.threads,
    maxQueue: options.waiting,
  });
  const readers = new Piscina({ ...shared, minThreads: 1, maxThreads: 1, maxQueue: READS_WAITING });
  return {
    answer: (order, hooks = {}) => answer(solvers, order, hooks, options.grace),
    read: (text) => run<JsonReading>(readers, text, { name: 'read' }),
    check: (subject) => run<Check>(readers, subject, { name: 'check' }),
    close: async () => {
      await Promise.all([solvers.destroy(), readers.destroy()]);
    },
  };
}

async function answer(
  pool: Piscina,
  order: Order,
  { onStart, onProgress, signal }: OrderHooks,
  grace: number,
): Promise<OrderReply> {
  const { port1, port2 } = new MessageChannel();
  const stopped = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
  const end = new AbortController();
  let timer: NodeJS.Timeout | undefined;
  const stop = () => {
    if (timer === undefined) end.abort();
    else Atomics.store(stopped, 0, 1);
  };
  signal?.addEventListener('abort', stop);
  if (signal?.aborted === true) stop();
  port1.on('message', (message: TaskMessage) => {
    if (message.kind === 'progress') return onProgress?.(message.progress);
    timer = setTimeout(() => end.abort(), (order.seconds + grace) * 1000);
    return onStart?.();
  });
  const task: OrderTask = { order, stopped, port: port2 };
  try {
    return await run<OrderReply>(pool, task, {
      name: 'answer',
      transferList: [port2],
      signal: end.signal,
    });
  } catch (error) {
    if (timer === undefined && signal?.aborted === true)
      throw new RunnerFailure('cancelled', { cause: error });
    throw error;
  } finally {
    clearTimeout(timer);
    signal?.removeEventListener('abort', stop);
    port1.close();
  }
}

async function run<T>(pool: Piscina, task: unknown, options: Parameters<Piscina['run']>[1]): Promise<T> {
  try {
    return (await pool.run(task, options)) as T;
  } catch (error) {
    throw new RunnerFailure(reasonOf(error), { cause: error });
  }
}

function reasonOf(error: unknown): RunnerFailure['reason'] {
  if (!(error instanceof Error)) return 'ended';
  if (error.name === 'AbortError') return 'overdue';
  if (/queue/i.test(error.message)) return 'full';
  return /terminat/i.test(error.message) ? 'closed' : 'ended';
}
