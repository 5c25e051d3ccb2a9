import * as z from 'zod';
import { canonicalText } from '../../host/digest.js';
import { contractSchema } from '../../scenario/schema/sales.js';
import { etagOf } from '../storage/plain-file.js';
import type { Expected, WriteOutcome } from '../storage/stored-scenario.js';
import { jsonResponse, taggedResponse } from './json-response.js';
import { DELETE_HEADERS, expectedOf, matchOf, READ_HEADERS, WRITE_HEADERS } from './preconditions.js';
import { Refusal } from './refusal.js';
import { requestDocument } from './request-document.js';
import type { ApiContext, Route } from './route.js';
import { changedSince, writtenResponse, writtenSchema } from './scenario-routes.js';
import { entityTag, isObject } from './schema.js';
import type { ApiServices } from './services.js';
import { checkedName, goodScenario, storedScenarioOf } from './stored-scenario-of.js';

const TAG = 'Offers';

const offerList = z
  .strictObject({ offers: z.array(z.strictObject({ etag: entityTag, offer: contractSchema })) })
  .meta({ id: 'offerList' });

const ETAG_HEADER = { ETag: 'Of this offer alone, whatever happens to the rest of the scenario.' };

/** One offer as it stands in a scenario. */
interface Offer {
  readonly id: string;
  readonly text: string;
  readonly etag: string;
}

/** Offers, which stand inside a scenario: each can be read, created, replaced and deleted by itself. */
export function offerRoutes(services: ApiServices): Route[] {
  const nameOf = (context: ApiContext) => checkedName(context.req.param('name') ?? '');
  const idOf = (context: ApiContext) => context.req.param('offer') ?? '';
  return [
    {
      id: 'listOffers',
      method: 'GET',
      path: '/scenarios/{name}/offers',
      tag: TAG,
      summary: 'The offers of a scenario',
      access: 'read',
      responses: { 200: { description: 'In the order of the scenario.', schema: offerList } },
      refusals: ['not-found', 'broken-scenario'],
      handle: async (context) => {
        const { text } = await storedScenarioOf(services, nameOf(context));
        const offers = offersOf(parsed(text));
        return jsonResponse({
          offers: offers.map((each) => ({ etag: each.etag, offer: JSON.parse(each.text) })),
        });
      },
    },
    {
      id: 'readOffer',
      method: 'GET',
      path: '/scenarios/{name}/offers/{offer}',
      tag: TAG,
      summary: 'An offer of a scenario',
      access: 'read',
      headers: READ_HEADERS,
      responses: {
        200: { description: 'The offer.', schema: contractSchema, headers: ETAG_HEADER },
        304: { description: 'The client has this version already.', headers: ETAG_HEADER },
      },
      refusals: ['not-found', 'broken-scenario'],
      handle: async (context) => {
        const { text } = await storedScenarioOf(services, nameOf(context));
        const found = offersOf(parsed(text)).find(({ id }) => id === idOf(context));
        if (found === undefined) throw noOffer();
        return taggedResponse(context, found.text, found.etag);
      },
    },
    {
      id: 'writeOffer',
      method: 'PUT',
      path: '/scenarios/{name}/offers/{offer}',
      tag: TAG,
      summary: 'Create or replace an offer',
      description:
        'The scenario is written anew, with two spaces for each level, if it passes all checks with the offer.',
      access: 'full',
      headers: WRITE_HEADERS,
      body: { schema: contractSchema, example: undefined },
      responses: {
        200: { description: 'Replaced, or the same again.', schema: writtenSchema, headers: ETAG_HEADER },
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
        'invalid-request',
        'invalid-scenario',
        'precondition-required',
      ],
      handle: async (context) => {
        const [name, id] = [nameOf(context), idOf(context)];
        const expected = expectedOf(context);
        const offer = await requestDocument(context, services.runner);
        if (!isObject(offer) || offer.id !== id) {
          throw new Refusal('invalid-request', 'The offer is an object whose id is the one in the path.');
        }
        const etag = etagOf(textOf(offer));
        let kind: WriteOutcome['kind'] = 'replaced';
        await changeOffers(services, name, (offers) => {
          const position = offers.findIndex((each) => isObject(each) && each.id === id);
          requireExpected(expected, position < 0 ? undefined : etagOf(textOf(offers[position])));
          kind = position < 0 ? 'created' : 'replaced';
          return position < 0 ? [...offers, offer] : offers.with(position, offer);
        });
        return writtenResponse({ kind, etag }, `/scenarios/${name}/offers/${id}`);
      },
    },
    {
      id: 'deleteOffer',
      method: 'DELETE',
      path: '/scenarios/{name}/offers/{offer}',
      tag: TAG,
      summary: 'Delete an offer',
      access: 'full',
      headers: DELETE_HEADERS,
      responses: { 204: { description: 'Deleted.' } },
      refusals: [
        'not-found',
        'broken-scenario',
        'precondition-failed',
        'invalid-scenario',
        'precondition-required',
      ],
      handle: async (context) => {
        const [name, id] = [nameOf(context), idOf(context)];
        const etags = matchOf(context);
        await changeOffers(services, name, (offers) => {
          const position = offers.findIndex((each) => isObject(each) && each.id === id);
          if (position < 0) throw noOffer();
          requireExpected({ kind: 'version', etags }, etagOf(textOf(offers[position])));
          return offers.toSpliced(position, 1);
        });
        return new Response(null, { status: 204 });
      },
    },
  ];
}

/** Reads, changes, checks and writes a scenario's offers, with nobody writing between. @throws Refusal */
async function changeOffers(
  { library, runner }: ApiServices,
  name: string,
  change: (offers: readonly unknown[]) => readonly unknown[],
): Promise<void> {
  const outcome = await library.folder.update(name, async (file) => {
    const { text } = goodScenario(await library.judge(name, file));
    const document = parsed(text);
    const offers = Array.isArray(document.offers) ? document.offers : [];
    const changed = `${JSON.stringify({ ...document, offers: change(offers) }, undefined, 2)}\n`;
    const { problems } = await runner.check({ text: changed });
    if (problems.length > 0) {
      throw new Refusal('invalid-scenario', 'The scenario has problems with this change.', { problems });
    }
    return new TextEncoder().encode(changed);
  });
  if (outcome?.kind === 'conflict') throw changedSince(outcome.etag);
}

function offersOf({ offers }: Readonly<Record<string, unknown>>): Offer[] {
  const list: readonly unknown[] = Array.isArray(offers) ? offers : [];
  return list.filter(isObject).map((offer) => {
    const text = textOf(offer);
    return { id: String(offer.id), text, etag: etagOf(text) };
  });
}

/** The text that an offer's entity tag is of: the same for the same figures, however they are written. */
function textOf(offer: unknown): string {
  const text = canonicalText(offer);
  if (text === undefined)
    throw new Refusal('malformed', 'A number is beyond what JSON can carry, or text holds half a character.');
  return text;
}

/** Of a text that has passed its checks. */
function parsed(text: string): Readonly<Record<string, unknown>> {
  return JSON.parse(text.startsWith('\uFEFF') ? text.slice(1) : text);
}

function requireExpected(expected: Expected, etag: string | undefined): void {
  if (expected.kind === 'nothing') {
    if (etag !== undefined) throw changedSince(etag);
    return;
  }
  if (etag === undefined || (expected.etags !== 'any' && !expected.etags.includes(etag)))
    throw changedSince(etag);
}

function noOffer(): Refusal {
  return new Refusal('not-found', 'The scenario has no offer of this id.');
}
