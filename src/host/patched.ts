import { type PatchedDocument, patchDocument } from '../analysis/variant/json-patch.js';
import { mergePatch } from '../analysis/variant/merge-patch.js';

/** A scenario with a patch, a JSON Patch where it is a list, else a merge patch; as it is without one. */
export function patched(scenario: unknown, change: unknown): PatchedDocument {
  if (change === undefined) return { ok: true, document: scenario };
  if (Array.isArray(change)) return patchDocument(scenario, change);
  return { ok: true, document: mergePatch(scenario, change) };
}
