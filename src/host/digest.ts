import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';

/**
 * 'sha256:' and the SHA-256 of a JSON value's canonical text (RFC 8785). Undefined where it has none: a number
 * that is not finite, half a surrogate pair.
 */
export function digestOf(value: unknown): string | undefined {
  const text = canonicalText(value);
  return text === undefined ? undefined : `sha256:${createHash('sha256').update(text).digest('hex')}`;
}

/** The canonical text of a JSON value (RFC 8785); undefined where it has none. */
export function canonicalText(value: unknown): string | undefined {
  try {
    const text = canonicalize(value);
    // JSON.stringify writes a lone surrogate as an escape, which the standard refuses.
    return text === undefined || /\\ud[89a-f]/.test(text) ? undefined : text;
  } catch {
    return undefined;
  }
}
