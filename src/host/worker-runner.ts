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
export function workerRunner({
  program,
  threads,
  waiting,
  megabytes,
  grace,
}: WorkerRunnerOptions): QuestionRunner {
  const open = (size: number) =>
    new Piscina({
      filename: program.href,
      resourceLimits: { maxOldGenerationSizeMb: megabytes },
      atomics: 'disabled',
      minThreads: size,
      maxThreads: size,
    });
  const solvers = new BoundedPool(open(threads), threads + waiting);
  const readers = new BoundedPool(open(1), READS_WAITING);
  return {
    answer: (order, hooks = {}) => answer(solvers, order, hooks, grace),
    read: (text) => readers.run<JsonReading>(text, { name: 'read' }),
    check: (subject) => readers.run<Check>(subject, { name: 'check' }),
    close: async () => {
      await Promise.all([solvers.close(), readers.close()]);
    },
  };
}

/** A pool that takes no more than so many tasks at a time, those that run among them. */
class BoundedPool {
  private taken = 0;
  private isClosed = false;

  constructor(
    private readonly pool: Piscina,
    private readonly most: number,
  ) {}

  /** @throws RunnerFailure */
  async run<T>(task: unknown, options: Parameters<Piscina['run']>[1]): Promise<T> {
    if (this.isClosed) throw new RunnerFailure('closed');
    if (this.taken >= this.most) throw new RunnerFailure('full');
    this.taken += 1;
    try {
      return (await this.pool.run(task, options)) as T;
    } catch (error) {
      const isAborted = error instanceof Error && error.name === 'AbortError';
      const reason = this.isClosed ? 'closed' : isAborted ? 'overdue' : 'ended';
      throw new RunnerFailure(reason, { cause: error });
    } finally {
      this.taken -= 1;
    }
  }

  async close(): Promise<void> {
    this.isClosed = true;
    await this.pool.destroy();
  }
}

async function answer(
  pool: BoundedPool,
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
    return await pool.run<OrderReply>(task, { name: 'answer', transferList: [port2], signal: end.signal });
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
