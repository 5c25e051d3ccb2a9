import type { NameById } from './names.js';
import type { PlannedDocument } from './plan-document.js';

type StarterFigures = PlannedDocument['starterFigures'];

const FIELD_WORDS = { assay: 'assay', tireMass: 'mass of a tire', heatingValue: 'heating value' } as const;

/** What a plan takes from published tables instead of the plant's own figures: a sentence a source. */
export function starterFigureLines(figures: StarterFigures, materials: NameById): string[] {
  const bySource = new Map<string, StarterFigures[number][]>();
  for (const figure of figures) {
    const { field, source, status } = figure;
    const key = JSON.stringify([field, source, status]);
    bySource.set(key, [...(bySource.get(key) ?? []), figure]);
  }
  return [...bySource.values()].map((alike) => {
    const { field, source, status } = alike[0];
    const names = alike.map(({ material }) => materials[material]).join(', ');
    return `Not the plant's own: ${FIELD_WORDS[field]} of ${names}. Source: ${source} (${status}).`;
  });
}
