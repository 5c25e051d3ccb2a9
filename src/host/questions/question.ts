import type * as z from 'zod';
import type { Problem } from '../../issue/problem.js';
import type { Solver } from '../../solver/choose.js';

/** A question that can be asked of a scenario, by whatever means: one entry of the table of questions. */
export interface Question {
  /** As users write it. */
  readonly name: string;
  readonly summary: string;
  /** What may be asked beside the scenario; a shape whose values are plain JSON. */
  readonly options: z.ZodObject;
  /** A request for the documentation; of the shipped scenario `one-month` unless it names another. */
  readonly example: Readonly<Record<string, unknown>>;
  /** Options that are scenarios with patches themselves: `{ scenario, patch }`. */
  readonly subjects?: readonly string[];
  /** The document of an answer. */
  readonly answer: z.ZodType;
  /** Answers to `long` questions are not waited for unless that is asked for. */
  readonly pace: 'short' | 'long';
  ask(asked: Asked, options: unknown, solver: Solver, hooks: QuestionHooks): Reply;
}

export interface Asked {
  /** The scenario, patched, as read from JSON. Not checked yet. */
  readonly document: unknown;
  /** 'sha256:' and the digest of its canonical JSON. */
  readonly scenarioDigest: string;
}

export interface QuestionHooks {
  /** Seconds of wall clock that the answer may take. */
  readonly seconds: number;
  readonly cancelled: () => boolean;
  readonly onProgress: (progress: Progress) => void;
}

/** How far an answer has come. Money is present value. */
export type Progress =
  | {
      readonly kind: 'whole numbers';
      readonly seconds: number;
      readonly bound: number;
      readonly best?: number;
      readonly gap?: number;
    }
  | { readonly kind: 'counted'; readonly done: number; readonly of?: number; readonly estimate?: number };

/**
 * `stopped`: an answer that time or the user cut short, certified as far as it goes. The documents of
 * `infeasible` and `no certified answer` say why there is none.
 */
export type Reply =
  | { readonly kind: 'problems'; readonly problems: readonly Problem[] }
  | { readonly kind: ReplyKind; readonly document: unknown };

export type ReplyKind = 'answered' | 'stopped' | 'infeasible' | 'no certified answer';

type Definition<O extends z.ZodObject> = Omit<Question, 'options' | 'ask'> & {
  readonly options: O;
  readonly ask: (asked: Asked, options: z.output<O>, solver: Solver, hooks: QuestionHooks) => Reply;
};

/** A question whose `ask` is given its options in their own type. */
export function question<O extends z.ZodObject>(definition: Definition<O>): Question {
  return {
    ...definition,
    ask: (asked, options, solver, hooks) =>
      definition.ask(asked, definition.options.parse(options), solver, hooks),
  };
}
