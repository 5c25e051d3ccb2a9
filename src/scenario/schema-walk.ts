import type * as z from 'zod';
import { globalRegistry } from 'zod';
import type { Path } from './pointer.js';
import { scenarioSchema } from './schema/scenario.js';

type AnySchema = z.core.$ZodType;

/** The keys that the format knows at a place, of every form that may stand there. */
export function knownKeysAt(path: Path): string[] {
  return [...new Set(schemasAt(path).flatMap((schema) => Object.keys(shapeOf(schema))))];
}

/** What the format says of a place: the description nearest to it. */
export function descriptionAt(path: Path): string | undefined {
  return stepInto([scenarioSchema], path)
    .map((schema) => described(schema))
    .find((text) => text !== undefined);
}

function schemasAt(path: Path): AnySchema[] {
  return stepInto([scenarioSchema], path).flatMap(alternatives);
}

function stepInto(from: readonly AnySchema[], path: Path): AnySchema[] {
  return path.reduce<AnySchema[]>(
    (schemas, key) => schemas.flatMap(alternatives).flatMap((schema) => childrenOf(schema, key)),
    [...from],
  );
}

function childrenOf(schema: AnySchema, key: string | number): AnySchema[] {
  const { def } = (schema as z.core.$ZodTypes)._zod;
  if (def.type === 'object') return Object.hasOwn(def.shape, key) ? [def.shape[key] as AnySchema] : [];
  if (def.type === 'array') return typeof key === 'number' ? [def.element as AnySchema] : [];
  if (def.type === 'record') return [def.valueType as AnySchema];
  return [];
}

function alternatives(schema: AnySchema): AnySchema[] {
  const { def } = (schema as z.core.$ZodTypes)._zod;
  if (def.type === 'optional') return alternatives(def.innerType as AnySchema);
  if (def.type === 'union') return (def.options as readonly AnySchema[]).flatMap(alternatives);
  return [schema];
}

function shapeOf(schema: AnySchema): Record<string, unknown> {
  const { def } = (schema as z.core.$ZodTypes)._zod;
  return def.type === 'object' ? def.shape : {};
}

function described(schema: AnySchema): string | undefined {
  const own = globalRegistry.get(schema)?.description;
  if (own !== undefined) return own;
  const { def } = (schema as z.core.$ZodTypes)._zod;
  return def.type === 'optional' ? described(def.innerType as AnySchema) : undefined;
}
