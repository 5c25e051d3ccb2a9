import * as z from 'zod';
import type { WriteOutcome } from '../storage/stored-scenario.js';
import { jsonResponse } from './json-response.js';
import { Refusal } from './refusal.js';
import { entityTag } from './schema.js';

export const writtenSchema = z
  .strictObject({ etag: entityTag, state: z.enum(['created', 'replaced', 'unchanged']) })
  .meta({ id: 'written' });

/** @throws Refusal where the write found something else than it expected. */
export function writtenResponse(outcome: WriteOutcome, location: string, etag?: string): Response {
  if (outcome.kind === 'not a file') throw notAFile();
  if (outcome.kind === 'conflict') throw changedSince(outcome.etag);
  const tag = etag ?? outcome.etag;
  const isNew = outcome.kind === 'created';
  return jsonResponse(
    { etag: tag, state: outcome.kind },
    { status: isNew ? 201 : 200, headers: { ETag: tag, ...(isNew ? { Location: location } : {}) } },
  );
}

export function changedSince(etag: string | undefined): Refusal {
  if (etag === undefined) return new Refusal('precondition-failed', 'There is nothing there to replace.');
  const headers = { ETag: etag };
  return new Refusal('precondition-failed', 'Another version is there. Read it and try again.', { headers });
}

export function notAFile(): Refusal {
  return new Refusal('broken-scenario', 'Under this name is a link, a folder or a file that is too large.');
}
