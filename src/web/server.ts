import { randomUUID } from 'node:crypto';
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { createAdaptorServer } from '@hono/node-server';
import { getConnInfo } from '@hono/node-server/conninfo';
import { workerRunner } from '../host/worker-runner.js';
import type { Access } from './access.js';
import type { ApiContext } from './api/route.js';
import type { ApiServices } from './api/services.js';
import { createApp } from './app.js';
import { AnswerStore } from './jobs/answer-store.js';
import { Jobs } from './jobs/jobs.js';
import type { ServerLimits } from './limits.js';
import { faultEntry, type Log, type LogEntry } from './log.js';
import { refuseUnreadable } from './refuse-unreadable.js';
import { ScenarioFolder } from './storage/scenario-folder.js';
import { ScenarioLibrary } from './storage/scenario-library.js';

export interface ServerOptions {
  readonly host: string;
  /** 0: any that is free. */
  readonly port: number;
  readonly scenarios: string;
  readonly access: Access;
  readonly origins: readonly string[];
  readonly version: string;
  readonly limits: ServerLimits;
  readonly log: Log;
  /** The program of question-worker.js. */
  readonly questionWorker: URL;
}

export interface RunningServer {
  /** With the port that it got. */
  readonly url: string;
  /** Takes no more questions, lets those that are being worked on end for a while, and lets go of everything. */
  close(): Promise<void>;
}

const LOOPBACK = ['127.0.0.1', '::1', 'localhost'];

/** Whether only this machine reaches a server that listens there. */
export function isLoopback(host: string): boolean {
  return LOOPBACK.includes(host);
}

/**
 * Starts the server.
 *
 * @throws RangeError where others could reach it without a token; Error where it cannot listen or open the folder.
 */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const { host, limits, log, access } = options;
  if (!isLoopback(host) && access.kind === 'open') {
    throw new RangeError('a server that others can reach needs a token');
  }
  const state = { isOpen: true };
  const services = await servicesOf(options, () => state.isOpen);
  const app = createApp(services, {
    access,
    ...(isLoopback(host) ? { hosts: ['127.0.0.1', '[::1]', 'localhost'] } : {}),
    origins: options.origins,
    log,
    isDocumentationReady: true,
    now: Date.now,
    newId: randomUUID,
    addressOf,
  });
  const server = createAdaptorServer({
    fetch: app.fetch,
    // How often slow requests are looked for.
    serverOptions: { connectionsCheckingInterval: 1000 },
  }) as Server;
  limit(server, limits);
  refuseUnreadable(server);
  try {
    await listen(server, options);
  } catch (error) {
    await services.runner.close();
    throw error;
  }
  const url = urlOf(host, server.address() as AddressInfo);
  log(entry('started', url));
  return {
    url,
    close: async () => {
      state.isOpen = false;
      log(entry('closing', `${services.jobs.active().length} questions`));
      const closed = new Promise<void>((resolve) => server.close(() => resolve()));
      server.closeIdleConnections();
      await letEnd(services, limits);
      server.closeIdleConnections();
      setTimeout(() => server.closeAllConnections(), LAST_BYTES).unref();
      await closed;
      await services.runner.close();
      log(entry('closed', url));
    },
  };
}

/** Milliseconds for the last responses to leave. */
const LAST_BYTES = 1000;

async function servicesOf(options: ServerOptions, isOpen: () => boolean): Promise<ApiServices> {
  const { limits, version } = options;
  const folder = await ScenarioFolder.open(options.scenarios, limits.bodyBytes);
  const runner = workerRunner({
    program: options.questionWorker,
    threads: limits.threads,
    waiting: limits.waiting,
    megabytes: limits.threadMegabytes,
    grace: limits.graceSeconds,
  });
  return {
    library: new ScenarioLibrary(folder, runner),
    runner,
    jobs: new Jobs(limits.jobs, { now: Date.now, newId: randomUUID }),
    answers: new AnswerStore(limits.answerBytes),
    version,
    limits,
    onFault: (error, requestId) => options.log(faultEntry(error, requestId, Date.now())),
    isOpen,
  };
}

/** Slow and endless requests are cut off. */
function limit(server: Server, { headSeconds, requestSeconds, connections }: ServerLimits): void {
  server.headersTimeout = headSeconds * 1000;
  server.requestTimeout = requestSeconds * 1000;
  server.keepAliveTimeout = 5000;
  server.maxConnections = connections;
}

function listen(server: Server, { host, port }: ServerOptions): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, () => {
      server.off('error', reject);
      resolve();
    });
  });
}

/** Lets what is being worked on end by itself for a while, then asks it for the best so far. */
async function letEnd({ jobs }: ApiServices, { closingSeconds, graceSeconds }: ServerLimits): Promise<void> {
  const end = (seconds: number) => Promise.all(jobs.active().map(({ id }) => jobs.ended(id, seconds * 1000)));
  await end(closingSeconds);
  for (const { id } of jobs.active()) jobs.cancel(id);
  await end(graceSeconds);
}

function addressOf(context: ApiContext): string {
  return getConnInfo(context).remote.address ?? 'unknown';
}

function urlOf(host: string, { port }: AddressInfo): string {
  return `http://${host.includes(':') ? `[${host}]` : host}:${port}`;
}

function entry(event: LogEntry['event'], detail: string): LogEntry {
  return { time: new Date().toISOString(), level: 'info', event, detail };
}
