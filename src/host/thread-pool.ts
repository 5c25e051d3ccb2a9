import { MessageChannel, receiveMessageOnPort } from 'node:worker_threads';
import { Piscina } from 'piscina';
import type { ThreadMessage, ThreadTask } from './thread-task.js';

export interface ThreadPoolOptions {
  /** What the threads run: a file that exports functions. */
  readonly program: URL;
  readonly threads: number;
  /** Tasks that are taken at a time, those that run among them; any number if absent. */
  readonly most?: number;
  /** Megabytes of memory that a thread may use before it is ended. */
  readonly megabytes?: number;
  /** Threads are started before there is work for them, and stay. */
  readonly isReady?: boolean;
}

/** What happens while a task is worked on. */
export interface ThreadHooks<P> {
  readonly onStart?: () => void;
  readonly onProgress?: (progress: P) => void;
  /** Aborting asks a task that is begun for the best so far, and takes back one that is not. */
  readonly signal?: AbortSignal;
  /** Seconds after its beginning at which a task is stopped by force. */
  readonly seconds?: number;
}

/**
 * `full`: come again later. `cancelled`: before it was begun. `overdue`: stopped by force past its time.
 * `ended`: the work threw the cause, or its thread died of it. `closed`: the pool is.
 */
export class ThreadFailure extends Error {
  override readonly name = 'ThreadFailure';
  constructor(
    readonly reason: 'full' | 'cancelled' | 'overdue' | 'ended' | 'closed',
    options?: ErrorOptions,
  ) {
    super(`no answer: ${reason}`, options);
  }
}

/** Milliseconds after which a thread without work ends, where threads do not stay. */
const IDLE = 1000;

/** Megabytes of a limited thread for what was made last: with more the process grows and is no quicker. */
const YOUNG = 16;

function limitsOf(megabytes: number) {
  return { maxOldGenerationSizeMb: megabytes, maxYoungGenerationSizeMb: YOUNG };
}

/** Worker threads. A thread that dies, or that has to be ended, is replaced. */
export class ThreadPool {
  private readonly pool: Piscina;
  private readonly most: number;
  private readonly notBegun = new Set<AbortController>();
  private taken = 0;
  private isClosed = false;

  constructor({ program, threads, most, megabytes, isReady = false }: ThreadPoolOptions) {
    this.most = most ?? Number.POSITIVE_INFINITY;
    this.pool = new Piscina({
      filename: program.href,
      minThreads: isReady ? threads : 0,
      maxThreads: threads,
      idleTimeout: IDLE,
      atomics: 'disabled',
      ...(megabytes === undefined ? {} : { resourceLimits: limitsOf(megabytes) }),
    });
    // A thread that died without a task: what waits for one that cannot even start would wait without end.
    this.pool.on('error', (error: Error) => {
      for (const end of this.notBegun) end.abort(error);
    });
  }

  /** Calls a function of the program. @throws ThreadFailure */
  call<R>(name: string, argument: unknown): Promise<R> {
    return this.take<R>(argument, { name }, new AbortController());
  }

  /**
   * Hands work to a function of the program that does it by `workOn`.
   *
   * @throws ThreadFailure
   */
  async work<W, P, R>(name: string, work: W, hooks: ThreadHooks<P> = {}): Promise<R> {
    const { onStart, onProgress, signal, seconds } = hooks;
    const { port1, port2 } = new MessageChannel();
    const stopped = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
    const end = new AbortController();
    let isBegun = false;
    let timer: NodeJS.Timeout | undefined;
    const stop = () => {
      if (isBegun) Atomics.store(stopped, 0, 1);
      else end.abort();
    };
    signal?.addEventListener('abort', stop);
    if (signal?.aborted === true) stop();
    const hear = (message: ThreadMessage<P>) => {
      if (message.kind === 'progress') return onProgress?.(message.progress);
      isBegun = true;
      this.notBegun.delete(end);
      if (seconds !== undefined) timer = setTimeout(() => end.abort(), seconds * 1000);
      return onStart?.();
    };
    port1.on('message', hear);
    port1.unref();
    const task: ThreadTask<W> = { work, stopped, port: port2 };
    try {
      const answer = await this.take<R>(task, { name, transferList: [port2] }, end);
      // It may have come before what was told last.
      for (let last = receiveMessageOnPort(port1); last !== undefined; last = receiveMessageOnPort(port1)) {
        hear(last.message);
      }
      return answer;
    } catch (error) {
      if (!isBegun && signal?.aborted === true) throw new ThreadFailure('cancelled', { cause: error });
      throw error;
    } finally {
      clearTimeout(timer);
      signal?.removeEventListener('abort', stop);
      port1.close();
    }
  }

  /** Lets go of all threads. */
  async close(): Promise<void> {
    this.isClosed = true;
    await this.pool.destroy();
  }

  private async take<R>(
    task: unknown,
    options: Parameters<Piscina['run']>[1],
    end: AbortController,
  ): Promise<R> {
    if (this.isClosed) throw new ThreadFailure('closed');
    if (this.taken >= this.most) throw new ThreadFailure('full');
    this.taken += 1;
    this.notBegun.add(end);
    try {
      return (await this.pool.run(task, { ...options, signal: end.signal })) as R;
    } catch (error) {
      throw this.failureOf(error, end.signal);
    } finally {
      this.notBegun.delete(end);
      this.taken -= 1;
    }
  }

  private failureOf(error: unknown, end: AbortSignal): ThreadFailure {
    if (this.isClosed) return new ThreadFailure('closed', { cause: error });
    const isOverdue = end.aborted && end.reason.name === 'AbortError';
    if (isOverdue) return new ThreadFailure('overdue', { cause: error });
    return new ThreadFailure('ended', { cause: end.aborted ? end.reason : error });
  }
}
