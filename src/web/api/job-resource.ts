import * as z from 'zod';
import type { StoredAnswer } from '../jobs/answer-store.js';
import type { Job } from '../jobs/job.js';
import { type JsonResponseOptions, jsonResponse } from './json-response.js';

const time = z.iso.datetime().describe('UTC.');

export const progressSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('whole numbers'),
      seconds: z.number().describe('Since the solve began.'),
      bound: z.number().optional().describe('No plan earns more; present value. Absent: not known yet.'),
      best: z.number().optional().describe('The best plan so far; present value.'),
      gap: z.number().optional().describe('Between the two, relative. Absent: not known yet.'),
    }),
    z.strictObject({
      kind: z.literal('counted'),
      done: z.number().int(),
      of: z.number().int().optional().describe('Absent: it is not known how many there will be.'),
      estimate: z.number().optional().describe('Of the answer, as far as it has come; present value.'),
    }),
  ])
  .meta({ id: 'progress' });

export const jobSchema = z
  .strictObject({
    id: z.string(),
    question: z.string(),
    state: z
      .enum(['queued', 'running', 'done', 'cancelled', 'failed'])
      .describe(
        'cancelled: may still have an answer, the best so far. failed: the answer says why there is none.',
      ),
    created: time,
    started: time.optional(),
    ended: time.optional(),
    progress: progressSchema.optional(),
    answer: z.string().optional().describe('Where the answer is, once there is one.'),
  })
  .describe('A question that is being worked on, or was.')
  .meta({ id: 'job' });

export const jobList = z.strictObject({ jobs: z.array(jobSchema) }).meta({ id: 'jobList' });

/** A job as it is sent. */
export function jobResource(job: Job<StoredAnswer>): z.output<typeof jobSchema> {
  const { id, question, state, created, started, ended, progress, result } = job;
  return {
    id,
    question,
    state,
    created: utc(created),
    ...(started === undefined ? {} : { started: utc(started) }),
    ...(ended === undefined ? {} : { ended: utc(ended) }),
    ...(progress === undefined ? {} : { progress: withoutInfinities(progress) }),
    ...(result === undefined ? {} : { answer: `/jobs/${id}/answer` }),
  };
}

export function jobResponse(job: Job<StoredAnswer>, options: JsonResponseOptions = {}): Response {
  return jsonResponse(jobResource(job), options);
}

/** Bounds that are not known yet are infinite inside and absent outside. */
function withoutInfinities(progress: NonNullable<Job<unknown>['progress']>): z.output<typeof progressSchema> {
  const entries = Object.entries(progress).filter(
    ([, value]) => typeof value !== 'number' || Number.isFinite(value),
  );
  return Object.fromEntries(entries) as z.output<typeof progressSchema>;
}

function utc(milliseconds: number): string {
  return new Date(milliseconds).toISOString();
}
