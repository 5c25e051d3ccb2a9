import { createHash } from 'node:crypto';
import type { Markup } from '../../report/html/markup.js';

/** Pages load their style and scripts from this server and nothing from anywhere else. */
const POLICY = [
  "default-src 'none'",
  "style-src 'self'",
  "script-src 'self'",
  "connect-src 'self'",
  "img-src 'self' data:",
  "form-action 'self'",
  "base-uri 'none'",
  "frame-ancestors 'none'",
].join('; ');

const HEADERS = { 'Content-Type': 'text/html; charset=utf-8', 'Content-Security-Policy': POLICY };

export function markupResponse(page: Markup, status = 200): Response {
  return new Response(page.text, { status, headers: { ...HEADERS, 'Cache-Control': 'no-cache' } });
}

/**
 * A page of which the head can be shown while the rest is worked out.
 *
 * @param rest its signal is aborted where nobody waits for it any more
 */
export function streamedResponse(head: Markup, rest: (signal: AbortSignal) => Promise<Markup>): Response {
  const encoder = new TextEncoder();
  const gone = new AbortController();
  const body = new ReadableStream({
    async start(controller) {
      controller.enqueue(encoder.encode(head.text));
      const { text } = await rest(gone.signal);
      if (gone.signal.aborted) return;
      controller.enqueue(encoder.encode(text));
      controller.close();
    },
    cancel: () => gone.abort(),
  });
  return new Response(body, { headers: { ...HEADERS, 'Cache-Control': 'no-store' } });
}

/** The first digits of a digest, by which a file's name changes with its content. */
export function contentName(text: string): string {
  return createHash('sha256').update(text).digest('hex').slice(0, 12);
}
