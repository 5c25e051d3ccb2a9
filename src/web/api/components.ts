import * as z from 'zod';
import { QUESTIONS } from '../../host/questions/all.js';
import { scenarioSchema } from '../../scenario/schema/scenario.js';
import { scenarioDocument } from './schema.js';

/** A JSON Schema. */
export type JsonSchema = { readonly [key: string]: unknown };

const PLACE = '#/components/schemas/';

/**
 * JSON Schemas for an OpenAPI document: what has a name is defined once among the components and referred to.
 * OpenAPI 3.1 takes the JSON Schema of 2020-12 as it is.
 */
export class Components {
  private readonly defined = new Map<string, JsonSchema>();

  constructor() {
    this.define('scenario', scenarioSchema);
    for (const { name, answer } of QUESTIONS) this.define(name, answer);
  }

  /** A reference to the schema where it has a name, else the schema itself. */
  schemaOf(schema: z.ZodType): JsonSchema {
    const answered = QUESTIONS.find(({ answer }) => answer === schema);
    if (answered !== undefined) return refTo(answered.name);
    if (schema === scenarioDocument) return refTo('scenario');
    const name = z.globalRegistry.get(schema)?.id;
    return name === undefined ? this.converted(schema) : this.define(name, schema);
  }

  all(): Readonly<Record<string, JsonSchema>> {
    return Object.fromEntries([...this.defined].sort(([a], [b]) => (a < b ? -1 : 1)));
  }

  private define(name: string, schema: z.ZodType): JsonSchema {
    if (this.defined.has(name)) return refTo(name);
    const converted = this.converted(schema);
    // A schema that bears this name itself has come among the definitions with its parts.
    if (!this.defined.has(name)) this.defined.set(name, converted);
    return refTo(name);
  }

  private converted(schema: z.ZodType): JsonSchema {
    const { $schema, $defs, id, ...body } = z.toJSONSchema(schema, {
      target: 'draft-2020-12',
      io: 'input',
      unrepresentable: 'any',
      override: ({ zodSchema, jsonSchema }) => {
        const named = isSame(zodSchema, schema) ? undefined : nameOf(zodSchema);
        if (named !== undefined) replaceBy(jsonSchema, refTo(named));
        delete jsonSchema.id;
        if (jsonSchema.minimum === Number.MIN_SAFE_INTEGER) delete jsonSchema.minimum;
        if (jsonSchema.maximum === Number.MAX_SAFE_INTEGER) delete jsonSchema.maximum;
      },
    });
    for (const [name, definition] of Object.entries($defs ?? {})) {
      if (!this.defined.has(name)) this.defined.set(name, relocated(definition) as JsonSchema);
    }
    return relocated(body) as JsonSchema;
  }
}

function isSame(one: unknown, other: unknown): boolean {
  return one === other;
}

/** Documents that are components under another name than their own parts'. */
function nameOf(schema: unknown): string | undefined {
  if (schema === scenarioDocument) return 'scenario';
  return QUESTIONS.find(({ answer }) => answer === schema)?.name;
}

function refTo(name: string): JsonSchema {
  return { $ref: `${PLACE}${name}` };
}

function replaceBy(target: object, source: object): void {
  for (const key of Object.keys(target)) delete (target as Record<string, unknown>)[key];
  Object.assign(target, source);
}

/** References into a schema's own definitions become references to the components. */
function relocated(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(relocated);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, entry]) =>
      key === '$ref' && typeof entry === 'string'
        ? [key, entry.replace('#/$defs/', PLACE)]
        : [key, relocated(entry)],
    ),
  );
}
