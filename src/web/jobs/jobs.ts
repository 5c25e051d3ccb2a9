import type { OrderHooks } from '../../host/order.js';
import { hasEnded, type Job } from './job.js';

export interface JobLimits {
  /** Jobs that may be queued or running at a time, of all clients. */
  readonly active: number;
  readonly activeByClient: number;
  /** Milliseconds for which an ended job is kept, unless there are more than `kept`. */
  readonly keptFor: number;
  readonly kept: number;
}

/** What came of the work on a job; `failed` where the result only says why there is no answer. */
export interface Finished<R> {
  readonly failed: boolean;
  readonly result?: R;
}

export type Work<R> = (hooks: Required<OrderHooks>) => Promise<Finished<R>>;

export type Listener<R> = (job: Job<R>) => void;

interface Entry<R> {
  job: Job<R>;
  readonly stop: AbortController;
  readonly listeners: Set<Listener<R>>;
}

/** The jobs of a server: what is asked, how far it has come, and for a while what came of it. */
export class Jobs<R> {
  private readonly entries = new Map<string, Entry<R>>();

  constructor(
    readonly limits: JobLimits,
    private readonly clock: { readonly now: () => number; readonly newId: () => string },
  ) {}

  /** Starts a job, or says why not. `work` never throws. */
  start(question: string, client: string, work: Work<R>): Job<R> | 'full' | 'too many' {
    this.prune();
    const active = this.active();
    if (active.length >= this.limits.active) return 'full';
    if (active.filter((job) => job.client === client).length >= this.limits.activeByClient) return 'too many';
    const { newId, now } = this.clock;
    const job: Job<R> = { id: newId(), question, client, state: 'queued', created: now() };
    const entry: Entry<R> = { job, stop: new AbortController(), listeners: new Set() };
    this.entries.set(job.id, entry);
    void this.run(entry, work);
    return job;
  }

  find(id: string): Job<R> | undefined {
    this.prune();
    return this.entries.get(id)?.job;
  }

  /** Of one client, the newest first. */
  list(client: string): Job<R>[] {
    this.prune();
    return [...this.entries.values()]
      .map(({ job }) => job)
      .filter((job) => job.client === client)
      .reverse();
  }

  active(): Job<R>[] {
    return [...this.entries.values()].map(({ job }) => job).filter((job) => !hasEnded(job));
  }

  /** Asks a job to end; what it has found so far may still be its answer. */
  cancel(id: string): void {
    this.entries.get(id)?.stop.abort();
  }

  /** Forgets a job; cancels it first where it is worked on. */
  remove(id: string): void {
    this.cancel(id);
    this.entries.delete(id);
  }

  /** Calls the listener at each change until the job has ended. Returns what takes it off. */
  watch(id: string, listener: Listener<R>): () => void {
    const entry = this.entries.get(id);
    entry?.listeners.add(listener);
    return () => entry?.listeners.delete(listener);
  }

  /** The ended job, or the job as it stands when the time is over. */
  async ended(id: string, milliseconds: number): Promise<Job<R> | undefined> {
    const entry = this.entries.get(id);
    if (entry === undefined || hasEnded(entry.job)) return entry?.job;
    await new Promise<void>((resolve) => {
      const timer = setTimeout(resolve, milliseconds);
      entry.listeners.add((job) => {
        if (!hasEnded(job)) return;
        clearTimeout(timer);
        resolve();
      });
    });
    return entry.job;
  }

  private async run(entry: Entry<R>, work: Work<R>): Promise<void> {
    const { now } = this.clock;
    const finished = await work({
      signal: entry.stop.signal,
      onStart: () => this.change(entry, { state: 'running', started: now() }),
      onProgress: (progress) => this.change(entry, { progress }),
    });
    const state = entry.stop.signal.aborted ? 'cancelled' : finished.failed ? 'failed' : 'done';
    const result = finished.result === undefined ? {} : { result: finished.result };
    this.change(entry, { state, ended: now(), ...result });
    entry.listeners.clear();
  }

  private change(entry: Entry<R>, change: Partial<Job<R>>): void {
    entry.job = { ...entry.job, ...change };
    for (const listener of [...entry.listeners]) listener(entry.job);
  }

  private prune(): void {
    const ended = [...this.entries.values()].filter(({ job }) => hasEnded(job));
    const oldest = this.clock.now() - this.limits.keptFor;
    ended.forEach(({ job }, i) => {
      const isOver = (job.ended ?? 0) < oldest || i < ended.length - this.limits.kept;
      if (isOver) this.entries.delete(job.id);
    });
  }
}
