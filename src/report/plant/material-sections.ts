import type { Plant } from '../../plant/plant.js';
import { ABSENT, formatFigure } from '../figure.js';
import { namesOf } from '../names.js';
import { figures, type PlantSection, words } from './plant-section.js';
import { assayInWords } from './step-sections.js';

/** Materials with the one assay that each of them has, stated or derived. */
export function materialsSection(plant: Plant): PlantSection {
  const optional = (figure: number | undefined) => (figure === undefined ? ABSENT : formatFigure(figure, 2));
  return {
    title: 'Materials',
    columns: [
      words('material'),
      words('form'),
      figures('tire', 'kg'),
      figures('heating value', 'MJ/kg'),
      words('assay, %'),
    ],
    rows: plant.materials.map(({ name, form, tireMass, heatingValue, assay }) => [
      name,
      form,
      optional(tireMass),
      optional(heatingValue),
      assayInWords(assay) || ABSENT,
    ]),
  };
}

/** Published figures that the scenario refers to, with their sources. */
export function starterFiguresSection(plant: Plant): PlantSection {
  const names = namesOf(plant);
  return {
    title: 'Published figures used',
    columns: [words('material'), words('figure'), words('id'), words('status'), words('source')],
    rows: plant.starterFigures.map(({ material, field, id, status, source }) => [
      names.materials[material]!,
      field,
      id,
      status,
      source,
    ]),
  };
}
