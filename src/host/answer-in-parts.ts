import type { OrderPart, PartReply } from './answer-order.js';
import type { Order, OrderHooks, OrderReply } from './order.js';
import type { Progress } from './questions/question.js';
import { ThreadFailure, type ThreadPool } from './thread-pool.js';

/** Threads that find the parts, the thread that joins them, and how long all may take. */
export interface PartThreads {
  readonly solvers: ThreadPool;
  readonly joiner: ThreadPool;
  readonly parts: number;
  /** Seconds beyond the order's own limit before a thread is ended. */
  readonly grace: number;
}

/**
 * Answers an order by several threads at the same time: the same answer as by one.
 *
 * @throws ThreadFailure
 */
export async function answerInParts(
  order: Order,
  { onStart, onProgress, signal }: OrderHooks,
  { solvers, joiner, parts, grace }: PartThreads,
): Promise<OrderReply> {
  const stop = new AbortController();
  const abort = () => stop.abort();
  signal?.addEventListener('abort', abort);
  if (signal?.aborted === true) abort();
  let timer: NodeJS.Timeout | undefined;
  const begin = () => {
    if (timer !== undefined) return;
    // A part that begins later has no more time than the others.
    timer = setTimeout(abort, order.seconds * 1000);
    onStart?.();
  };
  const report = together(parts, onProgress);
  const find = (part: number) =>
    solvers
      .work<OrderPart, Progress, PartReply>(
        'part',
        { order, share: { part, of: parts } },
        {
          signal: stop.signal,
          seconds: order.seconds + grace,
          onStart: begin,
          onProgress: (progress) => report(part, progress),
        },
      )
      .catch((failure: unknown) => {
        // Without this part there is no answer: nobody works on for nothing.
        abort();
        throw failure;
      });
  try {
    const settled = await Promise.allSettled(Array.from({ length: parts }, (_, part) => find(part)));
    const found = settled.flatMap((each) => (each.status === 'fulfilled' ? [each.value] : []));
    const failed = settled.filter((each) => each.status === 'rejected');
    const failure = failed.find((each) => !isTakenBack(each)) ?? (found.length === 0 ? failed[0] : undefined);
    if (failure !== undefined) throw failure.reason;
    const whole = found.find((each) => each.kind === 'reply');
    // A part that was stopped before it began to look says so; what others have found is the answer.
    const isAnyFound = found.some((each) => each.kind === 'part');
    if (whole !== undefined && !isAnyFound) return whole.reply;
    return await joiner.call<OrderReply>('join', { order, parts: found });
  } finally {
    clearTimeout(timer);
    signal?.removeEventListener('abort', abort);
  }
}

/** Of a part that was taken back before it was begun nothing is missing but its findings. */
function isTakenBack({ reason }: PromiseRejectedResult): boolean {
  return reason instanceof ThreadFailure && reason.reason === 'cancelled';
}

/** The progress of all parts: what is done adds up, an estimate counts by what it is made from. */
function together(parts: number, onProgress: OrderHooks['onProgress']) {
  const latest = new Array<Progress | undefined>(parts).fill(undefined);
  return (part: number, progress: Progress) => {
    latest[part] = progress;
    if (progress.kind !== 'counted') return;
    const counted = latest.filter((each) => each?.kind === 'counted');
    const done = counted.reduce((sum, each) => sum + each.done, 0);
    const estimated = counted.filter((each) => each.estimate !== undefined);
    const weight = estimated.reduce((sum, each) => sum + each.done, 0);
    const estimate = estimated.reduce((sum, each) => sum + (each.estimate ?? 0) * each.done, 0) / weight;
    onProgress?.({ ...progress, done, ...(weight > 0 ? { estimate } : {}) });
  };
}
