import type { MiddlewareHandler } from 'hono';
import { type Access, permissionOf } from './access.js';
import { Refusal } from './api/refusal.js';
import type { RequestVariables, Route } from './api/route.js';
import { authorizationOf } from './signed-in.js';

type Handler = MiddlewareHandler<{ Variables: RequestVariables }>;

/**
 * Refuses requests that were made for another host: a page of the web whose name was made to lead to this machine
 * carries its own name as `Host`.
 *
 * @param hosts names without port; undefined lets all pass
 */
export function hostGuard(hosts: readonly string[] | undefined): Handler {
  return async (context, next) => {
    const host = context.req.header('Host') ?? new URL(context.req.url).host;
    if (hosts !== undefined && !hosts.includes(withoutPort(host))) {
      throw new Refusal('misdirected', 'This server does not answer for that host.');
    }
    await next();
  };
}

/** Refuses what a page of another origin would change or ask. */
export function originGuard(origins: readonly string[]): Handler {
  return async (context, next) => {
    const origin = context.req.header('Origin');
    const isSafe = context.req.method === 'GET' || context.req.method === 'HEAD';
    if (!isSafe && origin !== undefined && !origins.includes(origin) && !isOwn(origin, context.req)) {
      throw new Refusal('forbidden', 'Pages of other origins may not do this.');
    }
    await next();
  };
}

/** Refuses requests without a token that permits the route. */
export function accessGuard(access: Access, needed: Route['access']): Handler {
  return async (context, next) => {
    if (needed === 'anyone') return next();
    const permission = permissionOf(access, authorizationOf(context));
    if (permission === 'none') {
      const headers = { 'WWW-Authenticate': 'Bearer realm="cutpoint"' };
      throw new Refusal('unauthorized', 'Send a token: Authorization: Bearer …', { headers });
    }
    if (needed === 'full' && permission !== 'full') {
      const headers = { 'WWW-Authenticate': 'Bearer realm="cutpoint", error="insufficient_scope"' };
      throw new Refusal('forbidden', 'This token may read and ask, but not write.', { headers });
    }
    if (access.kind === 'tokens') context.set('client', `${permission} ${context.get('client')}`);
    return next();
  };
}

function withoutPort(host: string): string {
  return host.toLowerCase().replace(/:\d{1,5}$/, '');
}

function isOwn(
  origin: string,
  request: { header: (name: string) => string | undefined; url: string },
): boolean {
  const host = request.header('Host') ?? new URL(request.url).host;
  return origin === `http://${host}` || origin === `https://${host}`;
}
