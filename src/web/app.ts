import { Hono } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { cors } from 'hono/cors';
import { requestId } from 'hono/request-id';
import { secureHeaders } from 'hono/secure-headers';
import { ThreadFailure } from '../host/thread-pool.js';
import type { Access } from './access.js';
import { documentationOf } from './api/documentation.js';
import { problemResponse } from './api/problem-details.js';
import { Refusal } from './api/refusal.js';
import type { ApiContext, RequestVariables, Route } from './api/route.js';
import { apiRoutes } from './api/routes.js';
import type { ApiServices } from './api/services.js';
import { accessGuard, hostGuard, originGuard } from './guard.js';
import type { Log } from './log.js';
import { pageRoutes } from './pages/page-routes.js';

export interface AppOptions {
  readonly access: Access;
  /** Names that the server may be called by, without port; undefined: any. */
  readonly hosts?: readonly string[];
  /** Other origins whose pages may call it. */
  readonly origins: readonly string[];
  readonly log: Log;
  /** Makes the documentation now, rather than for the first who asks. */
  readonly isDocumentationReady: boolean;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  readonly newId: () => string;
  /** Who asks, as the connection has it. */
  readonly addressOf: (context: ApiContext) => string;
}

export type App = Hono<{ Variables: RequestVariables }>;

const NO_CONTENT_POLICY = {
  defaultSrc: ["'none'"],
  frameAncestors: ["'none'"],
  baseUri: ["'none'"],
  formAction: ["'none'"],
};

/** The application: everything between a request and its response. Other pages may be mounted on it. */
export function createApp(services: ApiServices, options: AppOptions): App {
  const app: App = new Hono();
  app.use(requestId({ generator: options.newId, limitLength: 64 }));
  app.use(logged(options));
  app.use(
    secureHeaders({
      overwrite: false,
      contentSecurityPolicy: NO_CONTENT_POLICY,
      xFrameOptions: 'DENY',
      strictTransportSecurity: false,
    }),
  );
  app.use(hostGuard(options.hosts));
  if (options.origins.length > 0) app.use(cors(corsOf(options.origins)));
  app.use(originGuard(options.origins));
  app.use(bodyLimit({ maxSize: services.limits.bodyBytes, onError: () => refuseSize(services) }));
  const routes = apiRoutes(services);
  if (options.isDocumentationReady) documentationOf(routes, services.version);
  mount(app, routes, options.access);
  mount(app, pageRoutes(services, options.access), options.access);
  app.notFound(() => problemResponse(new Refusal('not-found', 'There is nothing at this path.')));
  app.onError((error, context) => {
    const refusal = refusalOf(error);
    if (refusal.kind === 'internal') services.onFault(error, context.get('requestId'));
    return problemResponse(refusal);
  });
  return app;
}

function mount(app: App, routes: readonly Route[], access: Access): void {
  for (const route of routes) {
    app.on(route.method, honoPath(route.path), accessGuard(access, route.access), route.handle);
  }
  for (const path of new Set(routes.map((route) => route.path))) {
    const methods: string[] = routes.filter((route) => route.path === path).map(({ method }) => method);
    const allowed = [...methods, ...(methods.includes('GET') ? ['HEAD'] : [])].join(', ');
    app.all(honoPath(path), () => {
      throw new Refusal('method-not-allowed', `Allowed here: ${allowed}.`, { headers: { Allow: allowed } });
    });
  }
}

/** `/scenarios/{name}` → `/scenarios/:name` */
function honoPath(path: string): string {
  return path.replaceAll(/\{(\w+)\}/g, ':$1');
}

function logged({ log, now, addressOf }: AppOptions) {
  return async (context: ApiContext, next: () => Promise<void>) => {
    const started = now();
    context.set('client', addressOf(context));
    await next();
    context.res.headers.set('X-Request-Id', context.get('requestId'));
    const ended = now();
    log({
      time: new Date(ended).toISOString(),
      level: context.res.status >= 500 ? 'error' : 'info',
      event: 'request',
      requestId: context.get('requestId'),
      method: context.req.method,
      path: context.req.path,
      status: context.res.status,
      milliseconds: ended - started,
      client: context.get('client'),
    });
  };
}

function corsOf(origins: readonly string[]) {
  return {
    origin: [...origins],
    allowMethods: ['GET', 'HEAD', 'POST', 'PUT', 'DELETE'],
    allowHeaders: ['Authorization', 'Content-Type', 'If-Match', 'If-None-Match', 'Prefer', 'X-Request-Id'],
    exposeHeaders: [
      'ETag',
      'Location',
      'Content-Location',
      'Retry-After',
      'Preference-Applied',
      'X-Request-Id',
    ],
    maxAge: 600,
  };
}

function refuseSize({ limits }: ApiServices): never {
  throw new Refusal('too-large', `A body may have ${limits.bodyBytes} bytes at most.`, {
    // What is still to come of it is not read.
    headers: { Connection: 'close' },
  });
}

function refusalOf(error: unknown): Refusal {
  if (error instanceof Refusal) return error;
  if (error instanceof ThreadFailure && (error.reason === 'full' || error.reason === 'closed')) {
    return new Refusal('busy', 'The queue is full.', { headers: { 'Retry-After': '5' } });
  }
  return new Refusal(
    'internal',
    'A fault of the program. Nothing was changed that this request did not finish.',
  );
}
