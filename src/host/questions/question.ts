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
  /**
   * A stop keeps the best plan that the engine has found, for which it waits as long as the engine is silent. Without
   * it a search for whole numbers is ended at once, and what it has found is lost.
   */
  readonly keepsBest?: true;
  ask(asked: Asked, options: unknown, solver: Solver, hooks: QuestionHooks): Reply;
  /** Present where several threads may work on one answer, which is the same whatever their number. */
  readonly parts?: {
    find(asked: Asked, options: unknown, solver: Solver, hooks: QuestionHooks, share: Share): Part;
    join(asked: Asked, options: unknown, findings: readonly unknown[]): Reply;
  };
}

/** Which part of an answer is asked for: the first is 0. */
export interface Share {
  readonly part: number;
  readonly of: number;
}

/** What was found of a part, plain data; or the reply, where all parts would say the same. */
export type Part = Reply | { readonly kind: 'part'; readonly findings: unknown };

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

type Definition<O extends z.ZodObject, F> = Omit<Question, 'options' | 'ask' | 'parts'> & {
  readonly options: O;
} & (
    | { readonly ask: (asked: Asked, options: z.output<O>, solver: Solver, hooks: QuestionHooks) => Reply }
    | {
        readonly find: (
          asked: Asked,
          options: z.output<O>,
          solver: Solver,
          hooks: QuestionHooks,
          share: Share,
        ) => Reply | { readonly kind: 'part'; readonly findings: F };
        readonly join: (asked: Asked, options: z.output<O>, findings: readonly F[]) => Reply;
      }
  );

/** A question whose functions are given its options in their own type. One that has parts is asked as one part. */
export function question<O extends z.ZodObject, F = never>(definition: Definition<O, F>): Question {
  const { options: shape } = definition;
  if ('ask' in definition) {
    const { ask } = definition;
    return {
      ...definition,
      ask: (asked, options, solver, hooks) => ask(asked, shape.parse(options), solver, hooks),
    };
  }
  const { find, join, ...rest } = definition;
  return {
    ...rest,
    ask: (asked, given, solver, hooks) => {
      const options = shape.parse(given);
      const part = find(asked, options, solver, hooks, { part: 0, of: 1 });
      return part.kind === 'part' ? join(asked, options, [part.findings]) : part;
    },
    parts: {
      find: (asked, options, solver, hooks, share) => find(asked, shape.parse(options), solver, hooks, share),
      join: (asked, options, findings) => join(asked, shape.parse(options), findings as readonly F[]),
    },
  };
}
