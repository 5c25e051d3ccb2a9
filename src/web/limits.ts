import type { ApiLimits } from './api/services.js';
import type { JobLimits } from './jobs/jobs.js';

export interface ServerLimits extends ApiLimits {
  readonly jobs: JobLimits;
  /** Bytes of answers that are kept to be given again. */
  readonly answerBytes: number;
  /** Threads that solve, and questions that may wait for one. */
  readonly threads: number;
  readonly waiting: number;
  /** Megabytes of memory of a thread. */
  readonly threadMegabytes: number;
  /** Seconds beyond its own limit after which an answer is stopped by force. */
  readonly graceSeconds: number;
  /** Seconds in which a request's head, and the whole request, must have come. */
  readonly headSeconds: number;
  readonly requestSeconds: number;
  /** Connections at a time. */
  readonly connections: number;
  /** Seconds that closing waits for questions that are being worked on, before they are asked to end. */
  readonly closingSeconds: number;
}

const THREADS = 2;
const WAITING = 64;

/** What the server allows unless it is told otherwise. Two threads and two cores are a small server. */
export const SERVER_LIMITS: ServerLimits = {
  bodyBytes: 1_048_576,
  listEntries: 1000,
  solveSeconds: 60,
  waitSeconds: 5,
  longestWaitSeconds: 60,
  jobs: { active: THREADS + WAITING, activeByClient: 16, keptFor: 3_600_000, kept: 200 },
  answerBytes: 16_777_216,
  threads: THREADS,
  waiting: WAITING,
  threadMegabytes: 1024,
  graceSeconds: 5,
  headSeconds: 10,
  requestSeconds: 30,
  connections: 512,
  closingSeconds: 20,
};
