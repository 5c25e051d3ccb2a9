import type { Problem } from '../../issue/problem.js';
import { storedAnswer } from '../api/answer-response.js';
import { digestsOf } from '../api/question-digest.js';
import type { ApiServices } from '../api/services.js';
import type { StoredAnswer } from '../jobs/answer-store.js';

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

/** What a page asks with; its signal is aborted where nobody waits for the page any more. */
export interface PageServices extends ApiServices {
  readonly signal?: AbortSignal;
}

/**
 * Asks a question for a page and waits for the answer.
 *
 * @throws ThreadFailure where no answer can come
 */
export async function ask(services: PageServices, question: PageQuestion): Promise<PageAnswer> {
  const { answers, runner, version, limits, signal } = services;
  const order = { ...question, engine: 'auto', seconds: limits.solveSeconds } as const;
  const digests = digestsOf(order, version);
  const known = answers.find(digests.question.replace('sha256:', ''));
  const hooks = signal === undefined ? {} : { signal };
  const answer = known ?? storedAnswer(order, await runner.answer(order, hooks), digests, version);
  // What was broken off may lack parts that the same question is answered with otherwise.
  if (known === undefined && signal?.aborted !== true) answers.keep(answer);
  return pageAnswer(answer);
}

/**
 * What a job found of a question before it was stopped; undefined where it is not kept any more, was another's, or
 * of another question.
 */
export function askedBefore(
  { jobs, version, limits }: PageServices,
  question: PageQuestion,
  { id, client }: { readonly id: string; readonly client: string },
): PageAnswer | undefined {
  const job = jobs.find(id);
  if (job?.result === undefined || job.client !== client) return undefined;
  const digests = digestsOf({ ...question, engine: 'auto', seconds: limits.solveSeconds }, version);
  const isOfQuestion = job.result.digest === digests.question.replace('sha256:', '');
  return isOfQuestion ? pageAnswer(job.result) : undefined;
}

function pageAnswer(answer: StoredAnswer): PageAnswer {
  const body = JSON.parse(new TextDecoder().decode(answer.body));
  if (body.answer !== undefined) return { kind: 'document', document: body.answer };
  return { kind: 'problems', detail: body.detail, problems: body.problems ?? [] };
}
