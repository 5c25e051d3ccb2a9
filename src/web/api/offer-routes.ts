import * as z from 'zod';
import { contractSchema } from '../../scenario/schema/sales.js';
import { etagOf } from '../storage/plain-file.js';
import type { WriteOutcome } from '../storage/stored-scenario.js';
import { jsonResponse, taggedResponse } from './json-response.js';
import { changeOffers, noOffer, offersOf, parsed, requireExpected, textOf } from './offers-in-scenario.js';
import { DELETE_HEADERS, expectedOf, matchOf, READ_HEADERS, WRITE_HEADERS } from './preconditions.js';
import { Refusal } from './refusal.js';
import { requestDocument } from './request-document.js';
import type { ApiContext, Route } from './route.js';
import { entityTag, isObject } from './schema.js';
import type { ApiServices } from './services.js';
import { checkedName, storedScenarioOf } from './stored-scenario-of.js';
import { writtenResponse, writtenSchema } from './written-response.js';

const TAG = 'Offers';

const offerList = z
  .strictObject({ offers: z.array(z.strictObject({ etag: entityTag, offer: contractSchema })) })
  .meta({ id: 'offerList' });

const ETAG_HEADER = { ETag: 'Of this offer alone, whatever happens to the rest of the scenario.' };

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
        'too-large',
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
