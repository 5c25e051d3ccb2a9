import * as z from 'zod';
import { QUESTIONS } from '../../host/questions/all.js';
import { scenarioJsonSchema } from '../../scenario/json-schema.js';
import { etagOf } from '../storage/plain-file.js';
import { jsonResponse, taggedResponse } from './json-response.js';
import { READ_HEADERS } from './preconditions.js';
import { Refusal } from './refusal.js';
import type { Route } from './route.js';

const TAG = 'Schemas';

const schemaList = z.strictObject({ schemas: z.array(z.string()) }).meta({ id: 'schemaList' });

/** JSON Schemas of the scenario and of the answers, for editors and for other programs. */
export function schemaRoutes(): Route[] {
  const makers = new Map<string, () => unknown>([
    ['scenario', scenarioJsonSchema],
    ...QUESTIONS.map(({ name, answer }): [string, () => unknown] => [
      name,
      () => z.toJSONSchema(answer, { target: 'draft-2020-12', unrepresentable: 'any' }),
    ]),
  ]);
  const texts = new Map<string, string>();
  const textOf = (name: string) => {
    const text = texts.get(name) ?? JSON.stringify(makers.get(name)?.());
    texts.set(name, text);
    return text;
  };
  return [
    {
      id: 'listSchemas',
      method: 'GET',
      path: '/schema',
      tag: TAG,
      summary: 'What there is a schema of',
      access: 'anyone',
      responses: { 200: { description: 'Names.', schema: schemaList } },
      refusals: [],
      handle: () => jsonResponse({ schemas: [...makers.keys()] }),
    },
    {
      id: 'readSchema',
      method: 'GET',
      path: '/schema/{name}',
      tag: TAG,
      summary: 'The JSON Schema (2020-12) of the scenario, or of the answer to a question',
      access: 'anyone',
      headers: READ_HEADERS,
      responses: {
        200: {
          description: 'The schema.',
          contentType: 'application/schema+json',
          headers: { ETag: 'Of the schema.' },
        },
        304: { description: 'The client has this version already.' },
      },
      refusals: ['not-found'],
      handle: (context) => {
        const name = context.req.param('name') ?? '';
        if (!makers.has(name)) throw new Refusal('not-found', 'There is no schema of this name.');
        const text = textOf(name);
        return taggedResponse(context, text, etagOf(text), 'application/schema+json');
      },
    },
  ];
}
