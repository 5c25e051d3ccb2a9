import { REFUSALS, type Refusal, type RefusalKind } from './refusal.js';

export const PROBLEM_CONTENT_TYPE = 'application/problem+json';

/** A name, not an address: it stays the same wherever the server runs. */
export function problemType(kind: RefusalKind): string {
  return `urn:cutpoint:problem:${kind}`;
}

/** The problem details (RFC 9457) of a refusal, as JSON. */
export function problemDetails({
  kind,
  detail,
  extras,
}: Pick<Refusal, 'kind' | 'detail' | 'extras'>): string {
  const { status, title } = REFUSALS[kind];
  return JSON.stringify({
    type: problemType(kind),
    title,
    status,
    detail,
    ...(extras.problems === undefined ? {} : { problems: extras.problems }),
    ...extras.members,
  });
}

export function problemResponse(refusal: Pick<Refusal, 'kind' | 'detail' | 'extras'>): Response {
  const { status } = REFUSALS[refusal.kind];
  return new Response(problemDetails(refusal), {
    status,
    headers: {
      'Content-Type': PROBLEM_CONTENT_TYPE,
      'Cache-Control': 'no-store',
      ...refusal.extras.headers,
    },
  });
}
