import { readPlant, readPlantDocument } from '../plant/read-plant.js';
import { readJson } from '../scenario/read-json.js';
import type { Check } from './order.js';
import { patched } from './patched.js';

/** Checks a scenario's text, or a document with a patch. */
export function checkScenario(
  subject: { readonly text: string } | { readonly document: unknown; readonly patch?: unknown },
): Check {
  if ('text' in subject) return checkOf(readPlant(subject.text), () => readJson(subject.text).ok);
  const found = patched(subject.document, subject.patch);
  if (!found.ok) return { isJson: true, problems: found.problems, warnings: [] };
  return checkOf(readPlantDocument(found.document), () => true);
}

function checkOf(reading: ReturnType<typeof readPlant>, isJson: () => boolean): Check {
  if (!reading.ok) return { isJson: isJson(), problems: reading.problems, warnings: [] };
  return { isJson: true, title: reading.scenario.title, problems: [], warnings: reading.warnings };
}
