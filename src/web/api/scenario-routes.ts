import { jsonResponse, taggedResponse } from './json-response.js';
import { DELETE_HEADERS, expectedOf, matchOf, READ_HEADERS, WRITE_HEADERS } from './preconditions.js';
import { Refusal } from './refusal.js';
import { requestText } from './request-document.js';
import type { ApiContext, Route } from './route.js';
import { scenarioList, versionList } from './scenario-shapes.js';
import { scenarioDocument } from './schema.js';
import type { ApiServices } from './services.js';
import { checkedName, goodScenario, noScenario, storedScenarioOf } from './stored-scenario-of.js';
import { changedSince, notAFile, writtenResponse, writtenSchema } from './written-response.js';

const TAG = 'Scenarios';

const ETAG_HEADER = { ETag: 'Of the bytes that are stored.' };
const good = {
  description: 'The scenario, as it was written.',
  schema: scenarioDocument,
  headers: ETAG_HEADER,
};
const known = { description: 'The client has this version already.', headers: ETAG_HEADER };

/** Scenarios, stored as files: list, read, create, replace, delete, and what was before. */
export function scenarioRoutes(services: ApiServices): Route[] {
  const { library } = services;
  const nameOf = (context: ApiContext) => context.req.param('name') ?? '';
  return [
    {
      id: 'listScenarios',
      method: 'GET',
      path: '/scenarios',
      tag: TAG,
      summary: 'All stored scenarios',
      access: 'read',
      responses: { 200: { description: 'In the order of their names.', schema: scenarioList } },
      refusals: [],
      handle: async () => jsonResponse({ scenarios: await library.list() }),
    },
    {
      id: 'readScenario',
      method: 'GET',
      path: '/scenarios/{name}',
      tag: TAG,
      summary: 'A stored scenario',
      access: 'read',
      headers: READ_HEADERS,
      responses: { 200: good, 304: known },
      refusals: ['not-found', 'broken-scenario'],
      handle: async (context) => {
        const { text, etag } = await storedScenarioOf(services, nameOf(context));
        return taggedResponse(context, text, etag);
      },
    },
    {
      id: 'writeScenario',
      method: 'PUT',
      path: '/scenarios/{name}',
      tag: TAG,
      summary: 'Create or replace a scenario',
      description:
        'The text is stored byte for byte if it passes all checks. The version that it replaces is kept among the versions.',
      access: 'full',
      headers: WRITE_HEADERS,
      body: { schema: scenarioDocument, example: undefined },
      responses: {
        200: {
          description: 'Replaced, or the same bytes again.',
          schema: writtenSchema,
          headers: ETAG_HEADER,
        },
        201: {
          description: 'Created.',
          schema: writtenSchema,
          headers: { ...ETAG_HEADER, Location: 'Where it is.' },
        },
      },
      refusals: [
        'malformed',
        'not-found',
        'broken-scenario',
        'precondition-failed',
        'invalid-scenario',
        'precondition-required',
      ],
      handle: async (context) => {
        const name = checkedName(nameOf(context));
        const expected = expectedOf(context);
        const text = await scenarioText(services, context);
        const outcome = await library.folder.write(name, new TextEncoder().encode(text), expected);
        return writtenResponse(outcome, `/scenarios/${name}`);
      },
    },
    {
      id: 'deleteScenario',
      method: 'DELETE',
      path: '/scenarios/{name}',
      tag: TAG,
      summary: 'Delete a scenario',
      description: 'It is kept among the versions.',
      access: 'full',
      headers: DELETE_HEADERS,
      responses: { 204: { description: 'Deleted.' } },
      refusals: ['not-found', 'broken-scenario', 'precondition-failed', 'precondition-required'],
      handle: async (context) => {
        const outcome = await library.folder.delete(checkedName(nameOf(context)), matchOf(context));
        if (outcome.kind === 'absent') throw noScenario();
        if (outcome.kind === 'not a file') throw notAFile();
        if (outcome.kind === 'conflict') throw changedSince(outcome.etag);
        return new Response(null, { status: 204 });
      },
    },
    {
      id: 'listVersions',
      method: 'GET',
      path: '/scenarios/{name}/versions',
      tag: TAG,
      summary: 'Earlier versions of a scenario',
      access: 'read',
      responses: { 200: { description: 'Numbers to read them by.', schema: versionList } },
      refusals: ['not-found'],
      handle: async (context) =>
        jsonResponse({ versions: await library.folder.versions(checkedName(nameOf(context))) }),
    },
    {
      id: 'readVersion',
      method: 'GET',
      path: '/scenarios/{name}/versions/{version}',
      tag: TAG,
      summary: 'An earlier version of a scenario',
      access: 'read',
      headers: READ_HEADERS,
      responses: { 200: good, 304: known },
      refusals: ['not-found', 'broken-scenario'],
      handle: async (context) => {
        const version = Number(context.req.param('version'));
        if (!Number.isInteger(version)) throw noScenario();
        const reading = await library.readVersion(checkedName(nameOf(context)), version);
        const { text, etag } = goodScenario(reading);
        return taggedResponse(context, text, etag);
      },
    },
  ];
}

/** The text of a scenario that passes its checks. @throws Refusal */
async function scenarioText({ runner }: ApiServices, context: ApiContext): Promise<string> {
  const text = await requestText(context);
  const { isJson, problems } = await runner.check({ text });
  if (!isJson) throw new Refusal('malformed', 'The body is not JSON as it should be.', { problems });
  if (problems.length > 0) throw new Refusal('invalid-scenario', 'The scenario has problems.', { problems });
  return text;
}
