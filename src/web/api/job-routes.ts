import { streamSSE } from 'hono/streaming';
import type { StoredAnswer } from '../jobs/answer-store.js';
import { hasEnded, type Job } from '../jobs/job.js';
import { answerResponse } from './answer-response.js';
import { jobList, jobResource, jobResponse, jobSchema } from './job-resource.js';
import { jsonResponse } from './json-response.js';
import { READ_HEADERS } from './preconditions.js';
import { Refusal } from './refusal.js';
import type { ApiContext, Route } from './route.js';
import type { ApiServices } from './services.js';

const TAG = 'Jobs';

/** Milliseconds after which a silent stream says that it is alive. */
const HEARTBEAT = 15_000;

/** Jobs: how far a question has come, what came of it, and how to end it. */
export function jobRoutes(services: ApiServices): Route[] {
  const { jobs } = services;
  return [
    {
      id: 'listJobs',
      method: 'GET',
      path: '/jobs',
      tag: TAG,
      summary: 'The jobs of this client',
      access: 'read',
      responses: { 200: { description: 'The newest first.', schema: jobList } },
      refusals: [],
      handle: (context) => jsonResponse({ jobs: jobs.list(context.get('client')).map(jobResource) }),
    },
    {
      id: 'readJob',
      method: 'GET',
      path: '/jobs/{job}',
      tag: TAG,
      summary: 'How far a job has come',
      access: 'read',
      responses: { 200: { description: 'The job.', schema: jobSchema } },
      refusals: ['not-found'],
      handle: (context) => jobResponse(jobOf(context, services)),
    },
    {
      id: 'watchJob',
      method: 'GET',
      path: '/jobs/{job}/events',
      tag: TAG,
      summary: 'How far a job has come, as server-sent events',
      description: 'Each event is `job` and carries the job; the stream ends with the job.',
      access: 'read',
      responses: { 200: { description: 'A stream of events.', contentType: 'text/event-stream' } },
      refusals: ['not-found'],
      handle: (context) => events(context, services, jobOf(context, services)),
    },
    {
      id: 'readJobAnswer',
      method: 'GET',
      path: '/jobs/{job}/answer',
      tag: TAG,
      summary: 'The answer of a job that has ended',
      description: 'What the question would have been answered with directly, its status included.',
      access: 'read',
      headers: READ_HEADERS,
      responses: {
        200: { description: 'The answer, as the question documents it.', contentType: 'application/json' },
        304: { description: 'The client has this answer already.' },
      },
      refusals: ['not-found', 'not-ended', 'invalid-scenario', 'infeasible', 'no-certified-answer'],
      handle: (context) => {
        const job = jobOf(context, services);
        if (!hasEnded(job)) throw new Refusal('not-ended', 'The job is still being worked on.');
        if (job.result === undefined)
          throw new Refusal('not-found', 'The job was cancelled before anything was found.');
        return answerResponse(context, job.result, 'none');
      },
    },
    {
      id: 'cancelJob',
      method: 'DELETE',
      path: '/jobs/{job}',
      tag: TAG,
      summary: 'Cancel a job, or forget one that has ended',
      access: 'read',
      responses: {
        202: {
          description: 'It was asked to end; it may still give the best that it has found.',
          schema: jobSchema,
        },
        204: { description: 'It had ended and is forgotten.' },
      },
      refusals: ['not-found'],
      handle: (context) => {
        const job = jobOf(context, services);
        if (hasEnded(job)) {
          jobs.remove(job.id);
          return new Response(null, { status: 204 });
        }
        jobs.cancel(job.id);
        return jobResponse(jobOf(context, services), { status: 202 });
      },
    },
    {
      id: 'readAnswer',
      method: 'GET',
      path: '/answers/{digest}',
      tag: TAG,
      summary: 'An answer that was given before, by the digest of its question',
      access: 'read',
      headers: READ_HEADERS,
      responses: {
        200: { description: 'The same bytes as before.', contentType: 'application/json' },
        304: { description: 'The client has this answer already.' },
      },
      refusals: ['not-found', 'infeasible', 'invalid-scenario'],
      handle: (context) => {
        const answer = services.answers.find(context.req.param('digest') ?? '');
        if (answer === undefined)
          throw new Refusal('not-found', 'The answer is not kept any more. Ask again.');
        return answerResponse(context, answer, 'none');
      },
    },
  ];
}

/** A job is known by an id that cannot be guessed, and to its own client only. @throws Refusal 404 */
function jobOf(context: ApiContext, { jobs }: ApiServices): Job<StoredAnswer> {
  const job = jobs.find(context.req.param('job') ?? '');
  if (job === undefined || job.client !== context.get('client')) {
    throw new Refusal('not-found', 'There is no such job, or it is not kept any more.');
  }
  return job;
}

function events(context: ApiContext, { jobs }: ApiServices, first: Job<StoredAnswer>): Response {
  return streamSSE(
    context,
    async (stream) => {
      let counted = 0;
      const send = (job: Job<StoredAnswer>) =>
        stream.writeSSE({ event: 'job', id: String(++counted), data: JSON.stringify(jobResource(job)) });
      if (hasEnded(first)) return send(first);
      const heartbeat = setInterval(() => void stream.write(': \n\n'), HEARTBEAT);
      await new Promise<void>((resolve) => {
        let sent: Promise<unknown> = send(first);
        const off = jobs.watch(first.id, (job) => {
          sent = sent.then(() => send(job));
          if (hasEnded(job)) void sent.then(() => resolve());
        });
        stream.onAbort(() => {
          off();
          resolve();
        });
      });
      clearInterval(heartbeat);
    },
    // Whoever listened has gone.
    async () => {},
  );
}
