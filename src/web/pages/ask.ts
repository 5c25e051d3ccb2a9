import type { Problem } from '../../issue/problem.js';
import { storedAnswer } from '../api/answer-response.js';
import { digestsOf } from '../api/question-digest.js';
import type { ApiServices } from '../api/services.js';

/** An answer for a page: the same document, from the same store, that the API gives out. */
export type PageAnswer =
  | { readonly kind: 'document'; readonly document: unknown }
  | { readonly kind: 'problems'; readonly detail: string; readonly problems: readonly Problem[] };

export interface PageQuestion {
  readonly question: string;
  readonly scenario: unknown;
  readonly patch?: unknown;
  readonly options: Readonly<Record<string, unknown>>;
}

/**
 * Asks a question for a page and waits for the answer.
 *
 * @throws RunnerFailure where no answer can come
 */
export async function ask(services: ApiServices, question: PageQuestion): Promise<PageAnswer> {
  const { answers, runner, version, limits } = services;
  const order = { ...question, engine: 'auto', seconds: limits.solveSeconds } as const;
  const digests = digestsOf(order, version);
  const known = answers.find(digests.question.replace('sha256:', ''));
  const answer = known ?? storedAnswer(order, await runner.answer(order), digests, version);
  if (known === undefined) answers.keep(answer);
  const body = JSON.parse(answer.body);
  if (body.answer !== undefined) return { kind: 'document', document: body.answer };
  return { kind: 'problems', detail: body.detail, problems: body.problems ?? [] };
}
