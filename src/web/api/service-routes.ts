import * as z from 'zod';
import { etagOf } from '../storage/plain-file.js';
import { documentationOf } from './documentation.js';
import { jsonResponse, taggedResponse } from './json-response.js';
import { READ_HEADERS } from './preconditions.js';
import { REFERENCE_STYLE_SOURCE } from './reference-page.js';
import type { Route } from './route.js';
import type { ApiServices } from './services.js';

const TAG = 'Service';

const healthSchema = z
  .strictObject({
    status: z.enum(['open', 'closing']),
    version: z.string(),
    jobs: z.number().int().describe('Questions that are being worked on or wait.'),
  })
  .meta({ id: 'health' });

/** Whether the server works, and what it says of itself; `others` are all other routes. */
export function serviceRoutes({ jobs, version, isOpen }: ApiServices, others: readonly Route[]): Route[] {
  const known = { description: 'The client has this version already.' };
  const documentation = () => documentationOf([...others, ...own], version);
  const own: Route[] = [
    {
      id: 'readHealth',
      method: 'GET',
      path: '/health',
      tag: TAG,
      summary: 'Whether the server takes questions',
      access: 'anyone',
      responses: { 200: { description: 'It is there.', schema: healthSchema } },
      refusals: [],
      handle: () =>
        jsonResponse({ status: isOpen() ? 'open' : 'closing', version, jobs: jobs.active().length }),
    },
    {
      id: 'readOpenApi',
      method: 'GET',
      path: '/openapi.json',
      tag: TAG,
      summary: 'This document',
      access: 'anyone',
      headers: READ_HEADERS,
      responses: { 200: { description: 'OpenAPI 3.1.', contentType: 'application/json' }, 304: known },
      refusals: [],
      handle: (context) => {
        const { openApi } = documentation();
        return taggedResponse(context, openApi, etagOf(openApi));
      },
    },
    {
      id: 'readReference',
      method: 'GET',
      path: '/reference',
      tag: TAG,
      summary: 'This document as a page for people',
      access: 'anyone',
      headers: READ_HEADERS,
      responses: {
        200: { description: 'A page that asks for nothing else.', contentType: 'text/html; charset=utf-8' },
        304: known,
      },
      refusals: [],
      handle: (context) => {
        const { page } = documentation();
        const response = taggedResponse(context, page, etagOf(page), 'text/html; charset=utf-8');
        const policy = `default-src 'none'; style-src '${REFERENCE_STYLE_SOURCE}'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'`;
        response.headers.set('Content-Security-Policy', policy);
        return response;
      },
    },
  ];
  return own;
}
