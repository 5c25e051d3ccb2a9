import type { JsonReading } from '../scenario/read-json.js';
import { answerInParts } from './answer-in-parts.js';
import { hasParts } from './answer-order.js';
import type { Check, Order, OrderReply } from './order.js';
import type { QuestionRunner } from './question-runner.js';
import type { Progress } from './questions/question.js';
import { ThreadFailure, ThreadPool } from './thread-pool.js';

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

/** Answers in worker threads; reading has a thread of its own, so that it never waits for a solve. */
export function workerRunner({
  program,
  threads,
  waiting,
  megabytes,
  grace,
}: WorkerRunnerOptions): QuestionRunner {
  const shared = { program, megabytes, isReady: true };
  const solvers = new ThreadPool({ ...shared, threads });
  const readers = new ThreadPool({ ...shared, threads: 1, most: READS_WAITING });
  const divided = { solvers, joiner: readers, parts: threads, grace };
  let taken = 0;
  return {
    answer: async (order, hooks = {}) => {
      if (taken >= threads + waiting) throw new ThreadFailure('full');
      taken += 1;
      try {
        if (threads > 1 && hasParts(order)) return await answerInParts(order, hooks, divided);
        const seconds = order.seconds + grace;
        return await solvers.work<Order, Progress, OrderReply>('answer', order, { ...hooks, seconds });
      } finally {
        taken -= 1;
      }
    },
    read: (text) => readers.call<JsonReading>('read', text),
    check: (subject) => readers.call<Check>('check', subject),
    close: async () => {
      await Promise.all([solvers.close(), readers.close()]);
    },
  };
}
