import { createHash, timingSafeEqual } from 'node:crypto';

/** Who may do what. `open`: everybody who reaches the server, which then listens on the loopback only. */
export type Access =
  | { readonly kind: 'open' }
  | { readonly kind: 'tokens'; readonly full?: string; readonly read?: string };

export type Permission = 'none' | 'read' | 'full';

/** What a request's `Authorization` header (RFC 6750) permits. Takes as long whichever token is wrong, and where. */
export function permissionOf(access: Access, authorization: string | undefined): Permission {
  if (access.kind === 'open') return 'full';
  const [, token = ''] = /^Bearer +([A-Za-z0-9._~+/=-]{1,512})$/i.exec(authorization ?? '') ?? [];
  const isFull = isSame(token, access.full);
  const isRead = isSame(token, access.read);
  if (isFull) return 'full';
  return isRead ? 'read' : 'none';
}

/** Compares digests, which are all of one length, in constant time. */
function isSame(given: string, own: string | undefined): boolean {
  const equal = timingSafeEqual(digestOf(given), digestOf(own ?? ''));
  return equal && own !== undefined && own !== '';
}

function digestOf(text: string): Buffer {
  return createHash('sha256').update(text).digest();
}
