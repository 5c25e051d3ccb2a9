import type { Problem } from '../issue/problem.js';
import type { Warning } from '../issue/warning.js';
import { type Checked, checkDocument, parseScenario } from '../scenario/parse.js';
import type { Scenario } from '../scenario/schema/scenario.js';
import { derivePlant } from './derive-plant.js';
import type { Plant } from './plant.js';
import { PLANT_CHECKS } from './plant-checks.js';
import { plantWarnings } from './plant-warnings.js';

/** A plant that may be planned with, or everything that is wrong with its scenario. */
export type PlantReading =
  | {
      readonly ok: true;
      readonly scenario: Scenario;
      readonly plant: Plant;
      readonly warnings: readonly Warning[];
    }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Reads a scenario from JSON text and derives its plant. All problems at once; nothing is thrown. */
export function readPlant(text: string): PlantReading {
  return plantOf(parseScenario(text, PLANT_CHECKS));
}

/** The same for a document that was read from JSON already. */
export function readPlantDocument(document: unknown): PlantReading {
  return plantOf(checkDocument(document, PLANT_CHECKS));
}

function plantOf(checked: Checked): PlantReading {
  if (!checked.ok) return checked;
  const { scenario } = checked;
  return { ok: true, scenario, plant: derivePlant(scenario), warnings: plantWarnings(scenario) };
}
