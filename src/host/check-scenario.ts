import { readPlant, readPlantDocument } from '../plant/read-plant.js';
import { patch } from './answer-order.js';
import type { Check } from './order.js';

/** Checks a scenario's text, or a document with a patch. */
export function checkScenario(
  subject: { readonly text: string } | { readonly document: unknown; readonly patch?: unknown },
): Check {
  if ('text' in subject) return checkOf(readPlant(subject.text));
  const patched = patch(subject.document, subject.patch);
  if (!patched.ok) return { problems: patched.problems, warnings: [] };
  return checkOf(readPlantDocument(patched.document));
}

function checkOf(reading: ReturnType<typeof readPlant>): Check {
  if (!reading.ok) return { problems: reading.problems, warnings: [] };
  return { title: reading.scenario.title, problems: [], warnings: reading.warnings };
}
