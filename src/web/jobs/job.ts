import type { Progress } from '../../host/questions/question.js';

/** `cancelled`: the user ended it; it may still have an answer, the best so far. `failed`: no answer can come. */
export type JobState = 'queued' | 'running' | 'done' | 'cancelled' | 'failed';

/** A question that is being worked on, or was. Times in milliseconds since 1970. */
export interface Job<R> {
  readonly id: string;
  readonly question: string;
  readonly client: string;
  readonly state: JobState;
  readonly created: number;
  readonly started?: number;
  readonly ended?: number;
  readonly progress?: Progress;
  /** What came of it; absent while it is worked on, and where it was cancelled before anything came. */
  readonly result?: R;
}

export function hasEnded({ state }: Pick<Job<unknown>, 'state'>): boolean {
  return state !== 'queued' && state !== 'running';
}
