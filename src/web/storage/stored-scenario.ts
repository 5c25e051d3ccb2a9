import type { Problem } from '../../issue/problem.js';
import type { Warning } from '../../issue/warning.js';

/** A scenario's file as it is now. */
export interface StoredScenario {
  readonly name: string;
  /** A strong entity tag, quotes included; of the file's bytes. */
  readonly etag: string;
  readonly text: string;
}

/** A file that is no scenario to be planned with. */
export interface BrokenScenario {
  readonly name: string;
  /** Absent where the file could not be read. */
  readonly etag?: string;
  readonly problems: readonly Problem[];
}

export type ScenarioListing =
  | {
      readonly name: string;
      readonly state: 'good';
      readonly etag: string;
      readonly title: string;
      readonly warnings: readonly Warning[];
    }
  | (BrokenScenario & { readonly state: 'broken' });

export interface HistoryEntry {
  /** Counted from 1, the oldest. */
  readonly version: number;
  readonly etag: string;
}

/** What a write expects to find: nothing, or the very version that the writer has seen. */
export type Expected =
  | { readonly kind: 'nothing' }
  | { readonly kind: 'version'; readonly etags: readonly string[] | 'any' };

export type WriteOutcome =
  | { readonly kind: 'created' | 'replaced' | 'unchanged'; readonly etag: string }
  /** What is there is not what the writer expected. */
  | { readonly kind: 'conflict'; readonly etag?: string }
  /** No plain file: a link, a folder. */
  | { readonly kind: 'not a file' };

export type DeleteOutcome =
  | { readonly kind: 'deleted' | 'absent' | 'not a file' }
  | { readonly kind: 'conflict'; readonly etag: string };
