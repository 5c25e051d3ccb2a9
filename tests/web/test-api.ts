import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { QuestionRunner } from '../../src/host/question-runner.js';
import type { Access } from '../../src/web/access.js';
import { openApiDocument } from '../../src/web/api/openapi.js';
import { apiRoutes } from '../../src/web/api/routes.js';
import type { ApiLimits, ApiServices } from '../../src/web/api/services.js';
import { type App, createApp } from '../../src/web/app.js';
import { AnswerStore } from '../../src/web/jobs/answer-store.js';
import { type JobLimits, Jobs } from '../../src/web/jobs/jobs.js';
import { SERVER_LIMITS } from '../../src/web/limits.js';
import { faultEntry, type LogEntry } from '../../src/web/log.js';
import { ScenarioFolder } from '../../src/web/storage/scenario-folder.js';
import { ScenarioLibrary } from '../../src/web/storage/scenario-library.js';
import { SMALL_WORKS } from '../report/small-works.js';
import { Documented } from './documented.js';
import { inProcessRunner } from './in-process-runner.js';

export const WORKS_TEXT = JSON.stringify(SMALL_WORKS);

export interface TestApiOptions {
  readonly access?: Access;
  readonly hosts?: readonly string[];
  readonly origins?: readonly string[];
  readonly runner?: QuestionRunner;
  readonly limits?: Partial<ApiLimits>;
  readonly jobs?: Partial<JobLimits>;
  /** Under which a request comes; changes with time in no test but those that say so. */
  readonly address?: () => string;
  readonly now?: () => number;
}

export interface TestApi {
  readonly app: App;
  readonly services: ApiServices;
  readonly folder: string;
  readonly log: LogEntry[];
  readonly state: { isOpen: boolean };
  /** Sends a request and holds the response against the OpenAPI document. */
  send(method: string, path: string, options?: SendOptions): Promise<Response>;
  close(): void;
}

export interface SendOptions {
  /** A value that is sent as JSON, or text as it is. */
  readonly body?: unknown;
  readonly headers?: Readonly<Record<string, string>>;
}

let documented: Documented | undefined;

/** The body of a response, whose shape was held against the document already. */
// biome-ignore lint/suspicious/noExplicitAny: tests reach into JSON of many shapes.
export async function json(response: Response | Promise<Response>): Promise<any> {
  return (await response).json();
}

/** An application over a folder of its own that holds one scenario, `works`. */
export async function testApi(options: TestApiOptions = {}): Promise<TestApi> {
  const path = mkdtempSync(join(tmpdir(), 'cutpoint-web-'));
  writeFileSync(join(path, 'works.json'), WORKS_TEXT);
  const limits = { ...SERVER_LIMITS, waitSeconds: 60, ...options.limits };
  const folder = await ScenarioFolder.open(path, limits.bodyBytes);
  const runner = options.runner ?? inProcessRunner;
  const now = options.now ?? Date.now;
  const state = { isOpen: true };
  const log: LogEntry[] = [];
  const services: ApiServices = {
    library: new ScenarioLibrary(folder, runner),
    runner,
    jobs: new Jobs({ ...SERVER_LIMITS.jobs, ...options.jobs }, { now, newId: () => crypto.randomUUID() }),
    answers: new AnswerStore(SERVER_LIMITS.answerBytes),
    version: '0.0.0-test',
    limits,
    onFault: (error, requestId) => log.push(faultEntry(error, requestId, now())),
    isOpen: () => state.isOpen,
  };
  const app = createApp(services, {
    access: options.access ?? { kind: 'open' },
    hosts: options.hosts,
    origins: options.origins ?? [],
    log: (entry) => log.push(entry),
    isDocumentationReady: false,
    now,
    newId: () => crypto.randomUUID(),
    addressOf: options.address ?? (() => '127.0.0.1'),
  });
  documented ??= new Documented(openApiDocument(apiRoutes(services), services.version));
  const own = documented;
  return {
    app,
    services,
    folder: path,
    log,
    state,
    async send(method, url, { body, headers = {} } = {}) {
      const response = await app.request(url, {
        method,
        headers: { ...(body === undefined ? {} : { 'Content-Type': 'application/json' }), ...headers },
        ...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
      });
      await own.expectDocumented(method, url.split('?')[0], response);
      return response;
    },
    close: () => rmSync(path, { recursive: true, force: true }),
  };
}
