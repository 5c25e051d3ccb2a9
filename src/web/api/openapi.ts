import { Components, type JsonSchema } from './components.js';
import { PROBLEM_CONTENT_TYPE, problemType } from './problem-details.js';
import { REFUSALS, type RefusalKind } from './refusal.js';
import type { ResponseBody, Route } from './route.js';
import { problemDetailsSchema } from './schema.js';

/** An OpenAPI 3.1 document, as far as it is read here. */
export interface OpenApiDocument {
  readonly openapi: string;
  readonly info: { readonly title: string; readonly version: string; readonly description: string };
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: { readonly schemas: Readonly<Record<string, JsonSchema>> } & Readonly<
    Record<string, unknown>
  >;
  readonly [key: string]: unknown;
}

export interface Operation {
  readonly operationId: string;
  readonly tags: readonly string[];
  readonly summary: string;
  readonly description?: string;
  readonly parameters: readonly JsonSchema[];
  readonly security: readonly unknown[];
  readonly requestBody?: {
    readonly required: boolean;
    readonly content: Readonly<Record<string, MediaType>>;
  };
  readonly responses: Readonly<Record<string, OperationResponse>>;
}

export interface MediaType {
  readonly schema?: JsonSchema;
  readonly examples?: Readonly<Record<string, { readonly value: unknown }>>;
}

export interface OperationResponse {
  readonly description: string;
  readonly headers?: Readonly<Record<string, unknown>>;
  readonly content?: Readonly<Record<string, MediaType>>;
}

/** What may be answered to anything. */
const EVERYWHERE: readonly RefusalKind[] = [
  'unauthorized',
  'forbidden',
  'too-slow',
  'misdirected',
  'long-head',
  'internal',
  'busy',
];
const WITH_A_BODY: readonly RefusalKind[] = ['too-large', 'unsupported-media-type'];

const DESCRIPTION = `Plans how far a scrap-tire recycler reduces each tonne, to the largest margin.

A question takes a scenario, or the name of a stored one, and a patch that says what is different. Writes say which version they replace (\`If-Match\`). Errors are problem details (RFC 9457).`;

/** The OpenAPI 3.1 document of the routes, from the schemas that the routes themselves use. */
export function openApiDocument(routes: readonly Route[], version: string): OpenApiDocument {
  const components = new Components();
  const problem = components.schemaOf(problemDetailsSchema);
  const paths: Record<string, Record<string, Operation>> = {};
  for (const route of routes) {
    const operations = paths[route.path] ?? {};
    operations[route.method.toLowerCase()] = operationOf(route, components, problem);
    paths[route.path] = operations;
  }
  return {
    openapi: '3.1.0',
    info: {
      title: 'cutpoint',
      version,
      description: DESCRIPTION,
      license: { name: 'MIT', identifier: 'MIT' },
    } as OpenApiDocument['info'],
    servers: [{ url: '/' }],
    tags: [...new Set(routes.map(({ tag }) => tag))].map((name) => ({ name })),
    paths,
    components: {
      schemas: components.all(),
      securitySchemes: {
        token: { type: 'http', scheme: 'bearer', description: 'Needed where the server was given tokens.' },
      },
    },
  };
}

function operationOf(
  route: Route,
  components: Components,
  problem: JsonSchema,
): Operation & Record<string, unknown> {
  const { id, tag, summary, description, access, body } = route;
  const kinds = [...route.refusals, ...EVERYWHERE, ...(body === undefined ? [] : WITH_A_BODY)];
  return {
    operationId: id,
    tags: [tag],
    summary,
    ...(description === undefined ? {} : { description }),
    security: access === 'anyone' ? [] : [{}, { token: [] }],
    parameters: parametersOf(route),
    ...(body === undefined
      ? {}
      : {
          requestBody: {
            required: true,
            content: { 'application/json': mediaType(components.schemaOf(body.schema), body.example) },
          },
        }),
    responses: {
      ...Object.fromEntries(
        Object.entries(route.responses).map(([status, response]) => [
          status,
          responseOf(response, components),
        ]),
      ),
      ...refusalsOf(kinds, problem),
    },
  };
}

function parametersOf({ path, headers = [] }: Route): JsonSchema[] {
  const names = [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => name);
  return [
    ...names.map((name) => ({ name, in: 'path', required: true, schema: { type: 'string' } })),
    ...headers.map(({ name, description }) => ({
      name,
      in: 'header',
      description,
      schema: { type: 'string' },
    })),
  ];
}

function responseOf(
  { description, schema, contentType, headers }: ResponseBody,
  components: Components,
): OperationResponse {
  const hasBody = schema !== undefined || contentType !== undefined;
  return {
    description,
    ...(headers === undefined ? {} : { headers: headersOf(headers) }),
    ...(hasBody
      ? {
          content: {
            [contentType ?? 'application/json']: mediaType(
              schema === undefined ? undefined : components.schemaOf(schema),
            ),
          },
        }
      : {}),
  };
}

function headersOf(headers: Readonly<Record<string, string>>): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(headers).map(([name, description]) => [name, { description, schema: { type: 'string' } }]),
  );
}

function refusalsOf(kinds: readonly RefusalKind[], problem: JsonSchema): Record<string, OperationResponse> {
  const statuses = [...new Set(kinds.map((kind) => REFUSALS[kind].status))];
  return Object.fromEntries(
    statuses.map((status) => {
      const own = [...new Set(kinds)].filter((kind) => REFUSALS[kind].status === status);
      const description = own.map((kind) => `\`${problemType(kind)}\` ${REFUSALS[kind].when}`).join('\n\n');
      return [status, { description, content: { [PROBLEM_CONTENT_TYPE]: { schema: problem } } }];
    }),
  );
}

function mediaType(schema: JsonSchema | undefined, example?: unknown): MediaType {
  return {
    ...(schema === undefined ? {} : { schema }),
    ...(example === undefined ? {} : { examples: { example: { value: example } } }),
  };
}
