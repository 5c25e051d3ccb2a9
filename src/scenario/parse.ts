import type { Problem } from '../issue/problem.js';
import { scenarioChecks } from './checks/all.js';
import { inDocumentOrder } from './document-order.js';
import type { Draft, DraftCheck } from './draft.js';
import { readJson } from './read-json.js';
import { readShape } from './read-shape.js';
import type { Scenario } from './schema/scenario.js';

/** A scenario that may be planned with, or everything that is wrong with it. */
export type Checked =
  | { readonly ok: true; readonly scenario: Scenario }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/**
 * Reads a scenario from JSON text. All problems at once, in document order.
 *
 * @param extraChecks further checks over the draft, such as those of the plant
 */
export function parseScenario(text: string, extraChecks: readonly DraftCheck[] = []): Checked {
  const reading = readJson(text);
  if (!reading.ok) return reading;
  const checked = checkDocument(reading.document, extraChecks);
  if (reading.problems.length === 0) return checked;
  const others = checked.ok ? [] : checked.problems;
  return { ok: false, problems: inDocumentOrder(reading.document, [...reading.problems, ...others]) };
}

/**
 * Checks a document that was read from JSON already: its shape, then, on every part whose shape is right,
 * what the parts must be to each other. Nothing is repaired; nothing is thrown.
 *
 * @param extraChecks further checks over the draft, such as those of the plant
 */
export function checkDocument(document: unknown, extraChecks: readonly DraftCheck[] = []): Checked {
  const { problems, draft, scenario } = readShape(document);
  const all = [...problems, ...problemsIn(draft, [...scenarioChecks, ...extraChecks])];
  if (all.length === 0 && scenario !== undefined) return { ok: true, scenario };
  return { ok: false, problems: inDocumentOrder(document, all) };
}

function problemsIn(draft: Draft, checks: readonly DraftCheck[]): Problem[] {
  return checks.flatMap((check) => check(draft));
}
