import type { ApiContext } from './api/route.js';

const COOKIE = 'cutpoint-token';

/**
 * What a request is permitted by: its own `Authorization`, else the token that a browser keeps in a cookie since it
 * signed in. The cookie is sent by pages of this server alone (SameSite=Strict), and no script can read it.
 */
export function authorizationOf({ req }: Pick<ApiContext, 'req'>): string | undefined {
  const own = req.header('Authorization');
  if (own !== undefined) return own;
  const [, token] =
    new RegExp(`(?:^|;\\s*)${COOKIE}=([A-Za-z0-9._~+/=-]{1,512})(?:;|$)`).exec(req.header('Cookie') ?? '') ??
    [];
  return token === undefined ? undefined : `Bearer ${token}`;
}

export function signInCookie(token: string, isSecure: boolean): string {
  return `${COOKIE}=${token}; Path=/; HttpOnly; SameSite=Strict${isSecure ? '; Secure' : ''}`;
}
