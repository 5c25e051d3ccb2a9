import type { Warning } from '../issue/warning.js';
import type { Plant } from '../plant/plant.js';
import { machinesSection, windowsSection } from './plant/hours-sections.js';
import { materialsSection, starterFiguresSection } from './plant/material-sections.js';
import { printPlantSection } from './plant/plant-section.js';
import { balanceSection, stepsSection, yieldsSection } from './plant/step-sections.js';
import { printParagraph } from './section.js';

/**
 * The derived plant in print, 100 columns: for each step net throughput, passes, energy and wear; yields and
 * assays; the mass balance by constituent; hours; published figures used; warnings.
 */
export function plantReport(plant: Plant, warnings: readonly Warning[] = []): string {
  const { title, months } = plant;
  const first = months[0]!.label;
  const span = months.length === 1 ? first : `${first} to ${months.at(-1)!.label}`;
  const sections = [
    stepsSection(plant),
    yieldsSection(plant),
    balanceSection(plant),
    materialsSection(plant),
    machinesSection(plant),
    windowsSection(plant),
    starterFiguresSection(plant),
  ];
  return [
    printParagraph(`${title}: the plant, ${span}`),
    '\n',
    ...sections.map(printPlantSection),
    ...warnings.map(({ message }) => printParagraph(`Warning: ${message}`)),
  ].join('');
}
