import type { QuestionRunner } from '../../host/question-runner.js';
import type { AnswerStore, StoredAnswer } from '../jobs/answer-store.js';
import type { Jobs } from '../jobs/jobs.js';
import type { ScenarioLibrary } from '../storage/scenario-library.js';

/** What the routes work with. */
export interface ApiServices {
  readonly library: ScenarioLibrary;
  readonly runner: QuestionRunner;
  readonly jobs: Jobs<StoredAnswer>;
  readonly answers: AnswerStore;
  /** Of cutpoint. */
  readonly version: string;
  readonly limits: ApiLimits;
  /** Told of what the client is only told that it happened. */
  readonly onFault: (error: unknown, requestId: string) => void;
  /** False once the server is closing: no new questions. */
  readonly isOpen: () => boolean;
}

export interface ApiLimits {
  /** Of a request's body, and of a stored scenario. */
  readonly bodyBytes: number;
  /** Entries of any list of a scenario. */
  readonly listEntries: number;
  /** Seconds that an answer may take. */
  readonly solveSeconds: number;
  /** Seconds after which a question that nobody said how long to wait for becomes a job. */
  readonly waitSeconds: number;
  /** Seconds that a client may ask to wait. */
  readonly longestWaitSeconds: number;
}
