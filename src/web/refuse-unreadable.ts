import { type Server, STATUS_CODES } from 'node:http';
import type { Duplex } from 'node:stream';
import { PROBLEM_CONTENT_TYPE, problemDetails } from './api/problem-details.js';
import { REFUSALS, type RefusalKind } from './api/refusal.js';

/** Node's codes of the errors for which there is more to say than that the request is malformed. */
const KINDS: Readonly<Record<string, RefusalKind>> = {
  ERR_HTTP_REQUEST_TIMEOUT: 'too-slow',
  HPE_HEADER_OVERFLOW: 'long-head',
};

/** Answers what never becomes a request, so that the application does not see it: problem details, then the end. */
export function refuseUnreadable(server: Server): void {
  server.on('clientError', (error: NodeJS.ErrnoException, socket: Duplex) => {
    if (!socket.writable || error.code === 'ECONNRESET') socket.destroy();
    else socket.end(responseText(KINDS[error.code ?? ''] ?? 'malformed'), () => socket.destroy());
  });
}

function responseText(kind: RefusalKind): string {
  const { status } = REFUSALS[kind];
  const body = problemDetails({ kind, detail: DETAILS[kind] ?? 'This is no HTTP request.', extras: {} });
  return [
    `HTTP/1.1 ${status} ${STATUS_CODES[status]}`,
    `Content-Type: ${PROBLEM_CONTENT_TYPE}`,
    `Content-Length: ${Buffer.byteLength(body)}`,
    'Cache-Control: no-store',
    'Connection: close',
    '',
    body,
  ].join('\r\n');
}

const DETAILS: Readonly<Partial<Record<RefusalKind, string>>> = {
  'too-slow': 'The request did not arrive whole in the time that it may take.',
  'long-head': 'The headers of the request are too long.',
};
