import { isKnown } from './preconditions.js';
import type { ApiContext } from './route.js';

export interface JsonResponseOptions {
  readonly status?: number;
  readonly headers?: Readonly<Record<string, string>>;
}

export function jsonResponse(
  value: unknown,
  { status = 200, headers = {} }: JsonResponseOptions = {},
): Response {
  return new Response(JSON.stringify(value), {
    status,
    headers: { 'Content-Type': 'application/json', 'Cache-Control': 'no-store', ...headers },
  });
}

/** Text under an entity tag: 304 without it where the client has it already. */
export function taggedResponse(
  context: ApiContext,
  text: string,
  etag: string,
  contentType = 'application/json',
): Response {
  const headers = { ETag: etag, 'Cache-Control': 'no-cache' };
  if (isKnown(context, etag)) return new Response(null, { status: 304, headers });
  return new Response(text, { headers: { ...headers, 'Content-Type': contentType } });
}
