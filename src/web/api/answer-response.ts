import type { Order, OrderReply } from '../../host/order.js';
import { ThreadFailure } from '../../host/thread-pool.js';
import type { StoredAnswer } from '../jobs/answer-store.js';
import type { Finished } from '../jobs/jobs.js';
import { etagOf } from '../storage/plain-file.js';
import { isKnown } from './preconditions.js';
import { PROBLEM_CONTENT_TYPE, problemDetails } from './problem-details.js';
import type { QuestionDigests } from './question-digest.js';
import { REFUSALS, type RefusalExtras, type RefusalKind } from './refusal.js';
import type { ApiContext } from './route.js';

/** The answer to an order as it is sent. */
export function storedAnswer(
  order: Order,
  reply: OrderReply,
  digests: QuestionDigests,
  version: string,
): StoredAnswer {
  if (reply.kind === 'problems') {
    const extras = { problems: reply.problems };
    return refused('invalid-scenario', 'The scenario has problems.', digests, extras);
  }
  const seed = seedOf(order.options) ?? seedOf(order.options.uncertain);
  const provenance = {
    ...digests,
    cutpoint: version,
    engines: reply.engines,
    ...(seed === undefined ? {} : { seed }),
  };
  if (reply.kind === 'infeasible' || reply.kind === 'no certified answer') {
    const members = { provenance, answer: JSON.parse(reply.text) };
    return reply.kind === 'infeasible'
      ? refused('infeasible', 'The limits and promises of the scenario cannot all hold.', digests, {
          members,
        })
      : refused('no-certified-answer', 'No engine gave an answer that holds within the limits.', digests, {
          members,
        });
  }
  const body = `{"provenance":${JSON.stringify(provenance)},"answer":${reply.text}}`;
  return finished(200, 'application/json', body, digests, reply.kind === 'answered');
}

function seedOf(options: unknown): number | undefined {
  if (typeof options !== 'object' || options === null || !('seed' in options)) return undefined;
  return typeof options.seed === 'number' ? options.seed : undefined;
}

/** What is sent where no reply came; undefined where nothing is to be sent. */
export function failedAnswer(error: unknown, digests: QuestionDigests): Finished<StoredAnswer> {
  if (!(error instanceof ThreadFailure)) return { failed: true, result: refused('internal', FAULT, digests) };
  switch (error.reason) {
    case 'cancelled':
      return { failed: false };
    case 'overdue':
      return {
        failed: true,
        result: refused(
          'no-certified-answer',
          'Stopped at the end of the time that an answer may take.',
          digests,
        ),
      };
    case 'ended':
      return {
        failed: true,
        result: refused('internal', 'The thread that worked on the answer ended. It was replaced.', digests),
      };
    default:
      return { failed: true, result: refused('busy', 'The server could not take the question.', digests) };
  }
}

const FAULT = 'A fault of the program. Nothing was changed.';

/** The response that repeats an answer. */
export function answerResponse(
  context: ApiContext,
  answer: StoredAnswer,
  cache: 'hit' | 'miss' | 'none',
): Response {
  const { status, contentType, body, etag, digest, isRepeatable } = answer;
  const headers = {
    ETag: etag,
    // The address of a repeatable answer never answers anything else; others are not kept.
    'Cache-Control': isRepeatable ? 'private, no-cache' : 'no-store',
    ...(isRepeatable ? { 'Content-Location': `/answers/${digest}` } : {}),
    ...(cache === 'none' ? {} : { 'Cache-Status': cache === 'hit' ? 'cutpoint; hit' : 'cutpoint; fwd=miss' }),
    ...(status === 503 ? { 'Retry-After': '5' } : {}),
  };
  const isRead = context.req.method === 'GET' || context.req.method === 'HEAD';
  if (isRead && isKnown(context, etag)) return new Response(null, { status: 304, headers });
  return new Response(body, { status, headers: { ...headers, 'Content-Type': contentType } });
}

function refused(
  kind: RefusalKind,
  detail: string,
  digests: QuestionDigests,
  extras: RefusalExtras = {},
): StoredAnswer {
  const status = REFUSALS[kind].status as StoredAnswer['status'];
  const isRepeatable = kind === 'infeasible' || kind === 'invalid-scenario';
  return finished(
    status,
    PROBLEM_CONTENT_TYPE,
    problemDetails({ kind, detail, extras }),
    digests,
    isRepeatable,
  );
}

function finished(
  status: StoredAnswer['status'],
  contentType: string,
  text: string,
  digests: QuestionDigests,
  isRepeatable: boolean,
): StoredAnswer {
  const body = new TextEncoder().encode(text);
  const digest = digests.question.replace('sha256:', '');
  return { status, contentType, body, etag: etagOf(body), digest, isRepeatable };
}
