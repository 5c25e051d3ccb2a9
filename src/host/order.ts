import type { Problem } from '../issue/problem.js';
import type { Warning } from '../issue/warning.js';
import type { EngineChoice } from '../solver/choose.js';
import type { Progress, ReplyKind } from './questions/question.js';

/** A question as it is handed to whoever answers it; plain data. */
export interface Order {
  /** Name of the question. */
  readonly question: string;
  readonly scenario: unknown;
  /** A JSON Patch where it is a list, else a merge patch. */
  readonly patch?: unknown;
  /** Of the question, in its shape. */
  readonly options: Readonly<Record<string, unknown>>;
  readonly engine: EngineChoice;
  /** Seconds of wall clock that the answer may take. */
  readonly seconds: number;
}

/** `text` is the answer's document as JSON. */
export type OrderReply =
  | { readonly kind: 'problems'; readonly problems: readonly Problem[] }
  | {
      readonly kind: ReplyKind;
      readonly text: string;
      readonly engines: readonly { readonly name: string; readonly version: string }[];
    };

/** What happens while an order is worked on. */
export interface OrderHooks {
  readonly onStart?: () => void;
  readonly onProgress?: (progress: Progress) => void;
  /** Aborting asks for the best answer so far. */
  readonly signal?: AbortSignal;
}

/** What is wrong with a scenario, and what its owner should know. */
export interface Check {
  /** Whether it could be read as JSON at all. */
  readonly isJson: boolean;
  readonly title?: string;
  readonly problems: readonly Problem[];
  readonly warnings: readonly Warning[];
}
