import type { Problem } from '../../issue/problem.js';
import type { Plant } from '../../plant/plant.js';
import { readPlantDocument } from '../../plant/read-plant.js';
import type { Scenario } from '../../scenario/schema/scenario.js';
import { patchDocument } from './json-patch.js';
import { mergePatch } from './merge-patch.js';

/** A what-if by an open standard: RFC 6902 JSON Patch, or RFC 7396 merge patch. */
export type VariantChange =
  | { readonly kind: 'json patch'; readonly operations: unknown }
  | { readonly kind: 'merge patch'; readonly patch: unknown };

export type Variant =
  | { readonly ok: true; readonly document: unknown; readonly scenario: Scenario; readonly plant: Plant }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** The variant of a document, checked like any scenario. The document is left as it is. */
export function variantOf(document: unknown, change: VariantChange): Variant {
  if (change.kind === 'merge patch') return readVariant(mergePatch(document, change.patch));
  const patched = patchDocument(document, change.operations);
  return patched.ok ? readVariant(patched.document) : patched;
}

/** A document that was made from another, checked like any scenario. */
export function readVariant(document: unknown): Variant {
  const reading = readPlantDocument(document);
  return reading.ok ? { ok: true, document, scenario: reading.scenario, plant: reading.plant } : reading;
}
