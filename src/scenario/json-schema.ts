import * as z from 'zod';
import { SCENARIO_FORMAT, scenarioSchema } from './schema/scenario.js';

/** A JSON Schema document. */
export type JsonSchema = { readonly [key: string]: unknown };

/**
 * The JSON Schema (draft 2020-12) of the scenario format, generated from the schema that reads scenarios, so
 * that an editor completes and checks one. It knows shapes and ranges; what the parts must be to each other
 * is checked by the program. Keys stand in a fixed order.
 */
export function scenarioJsonSchema(): JsonSchema {
  const {
    $schema,
    id: _,
    ...body
  } = z.toJSONSchema(scenarioSchema, {
    target: 'draft-2020-12',
    io: 'input',
    override: ({ jsonSchema }) => {
      delete jsonSchema.id;
      if (jsonSchema.type !== undefined) dropInexpressible(jsonSchema);
    },
  });
  return ordered({
    $schema,
    $id: `urn:${SCENARIO_FORMAT.replace('/', ':')}`,
    title: 'Scenario of a scrap-tire recycling plant',
    ...body,
  }) as JsonSchema;
}

/** Limits of whole numbers that only say what a double can hold. */
function dropInexpressible(schema: { minimum?: number; maximum?: number }): void {
  if (schema.minimum === Number.MIN_SAFE_INTEGER) delete schema.minimum;
  if (schema.maximum === Number.MAX_SAFE_INTEGER) delete schema.maximum;
}

const LEADING = ['$schema', '$id', 'title', 'description', 'type'];

/** Keywords in alphabetical order after the leading ones; names of properties as the format lists them. */
function ordered(value: unknown, isNames = false): unknown {
  if (Array.isArray(value)) return value.map((entry) => ordered(entry));
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).map(
    ([key, entry]) => [key, ordered(entry, !isNames && (key === 'properties' || key === '$defs'))] as const,
  );
  return Object.fromEntries(isNames ? entries : entries.sort(([a], [b]) => compareKeywords(a, b)));
}

function compareKeywords(a: string, b: string): number {
  const [first, second] = [LEADING.indexOf(a), LEADING.indexOf(b)].map((i) => (i < 0 ? LEADING.length : i));
  return first - second || (a < b ? -1 : 1);
}
