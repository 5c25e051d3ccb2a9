import * as z from 'zod';
import type { Order } from '../../host/order.js';
import { QUESTIONS } from '../../host/questions/all.js';
import type { Question } from '../../host/questions/question.js';
import { ThreadFailure } from '../../host/thread-pool.js';
import type { StoredAnswer } from '../jobs/answer-store.js';
import { hasEnded, type Job } from '../jobs/job.js';
import { answerResponse, failedAnswer, storedAnswer } from './answer-response.js';
import { jobResponse, jobSchema } from './job-resource.js';
import { PREFER_HEADER, waitingOf } from './preferences.js';
import { digestsOf, type QuestionDigests } from './question-digest.js';
import { orderOf, requestSchemaOf } from './question-request.js';
import { Refusal } from './refusal.js';
import type { ApiContext, Route } from './route.js';
import { provenanceSchema } from './schema.js';
import type { ApiServices } from './services.js';

/** A route for each question of the table. */
export function questionRoutes(services: ApiServices): Route[] {
  return QUESTIONS.map((question): Route => {
    const schema = requestSchemaOf(question);
    return {
      id: `ask${question.name[0].toUpperCase()}${question.name.slice(1)}`,
      method: 'POST',
      path: `/${question.name}`,
      tag: 'Questions',
      summary: question.summary,
      description: DESCRIPTIONS[question.pace],
      access: 'read',
      headers: [PREFER_HEADER],
      body: { schema, example: { scenario: 'one-month', ...question.example } },
      responses: {
        200: {
          description: 'The answer, and what it was made from.',
          schema: answerSchemaOf(question),
          headers: {
            ETag: 'Of the answer.',
            'Content-Location': 'Where the answer can be read again while it is kept.',
            'Cache-Status': 'Whether the answer was known already (RFC 9211).',
          },
        },
        202: {
          description: 'It takes longer: the job to come back to.',
          schema: jobSchema,
          headers: { Location: 'The job.', 'Retry-After': 'Seconds.', 'Preference-Applied': 'Of `Prefer`.' },
        },
      },
      refusals: [
        'malformed',
        'not-found',
        'broken-scenario',
        'invalid-request',
        'invalid-scenario',
        'infeasible',
        'no-certified-answer',
        'too-many-jobs',
      ],
      handle: async (context) =>
        ask(context, services, question, await orderOf(context, services, question, schema)),
    };
  });
}

const DESCRIPTIONS: Readonly<Record<Question['pace'], string>> = {
  short: 'Answered at once where it takes no longer than the server waits, else with a job.',
  long: 'Answered with a job, unless `Prefer: wait=…` asks to wait.',
};

export function answerSchemaOf({ name, answer }: Pick<Question, 'name' | 'answer'>): z.ZodType {
  return z.strictObject({ provenance: provenanceSchema, answer }).meta({ id: `${name}Answer` });
}

async function ask(
  context: ApiContext,
  services: ApiServices,
  question: Question,
  order: Order,
): Promise<Response> {
  const { jobs, answers, limits } = services;
  const digests = digestsOf(order, services.version);
  const known = answers.find(digests.question.replace('sha256:', ''));
  if (known !== undefined) return answerResponse(context, known, 'hit');
  const job = start(context, services, order, digests);
  const usual = question.pace === 'short' ? limits.waitSeconds : 0;
  const waiting = waitingOf(context, usual, limits.longestWaitSeconds);
  const leave = () => jobs.remove(job.id);
  context.req.raw.signal.addEventListener('abort', leave);
  const waited = waiting.seconds === 0 ? job : ((await jobs.ended(job.id, waiting.seconds * 1000)) ?? job);
  context.req.raw.signal.removeEventListener('abort', leave);
  if (!hasEnded(waited) || waited.result === undefined) return accepted(waited, waiting.applied);
  jobs.remove(job.id);
  return answerResponse(context, waited.result, 'miss');
}

/** @throws Refusal 429 or 503 where it cannot be started */
function start(
  context: ApiContext,
  services: ApiServices,
  order: Order,
  digests: QuestionDigests,
): Job<StoredAnswer> {
  const { jobs, runner, answers, version } = services;
  const headers = { 'Retry-After': '5' };
  if (!services.isOpen()) throw new Refusal('busy', 'The server is closing.', { headers });
  const requestId = context.get('requestId');
  const started = jobs.start(order.question, context.get('client'), async (hooks) => {
    try {
      const answer = storedAnswer(order, await runner.answer(order, hooks), digests, version);
      answers.keep(answer);
      return { failed: false, result: answer };
    } catch (error) {
      if (isFault(error)) services.onFault(error, requestId);
      return failedAnswer(error, digests);
    }
  });
  if (started === 'full') throw new Refusal('busy', 'The queue is full.', { headers });
  if (started === 'too many') {
    throw new Refusal('too-many-jobs', `No more than ${jobs.limits.activeByClient} questions at a time.`, {
      headers,
    });
  }
  return started;
}

/** What should not have happened, whatever was asked. */
function isFault(error: unknown): boolean {
  return !(error instanceof ThreadFailure) || error.reason === 'ended';
}

function accepted(job: Job<StoredAnswer>, applied: string | undefined): Response {
  return jobResponse(job, {
    status: 202,
    headers: {
      Location: `/jobs/${job.id}`,
      'Retry-After': '1',
      ...(applied === undefined ? {} : { 'Preference-Applied': applied }),
    },
  });
}
