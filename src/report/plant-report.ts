import type { Warning } from '../issue/warning.js';
import type { Plant } from '../plant/plant.js';
import { machinesSection, windowsSection } from './plant/hours-sections.js';
import { assaysSection, starterFiguresSection } from './plant/material-sections.js';
import { balanceSection, stepsSection, yieldsSection } from './plant/step-sections.js';
import { printParagraph, printSection } from './section.js';

/**
 * The derived plant in print, 100 columns: for each step net throughput, passes, energy and wear; yields and
 * assays; the mass balance by constituent; hours; published figures used; warnings.
 */
export function plantReport(plant: Plant, warnings: readonly Warning[] = []): string {
  const { units, title, months } = plant;
  const sections = [
    stepsSection(plant),
    yieldsSection(plant),
    assaysSection(plant),
    balanceSection(plant),
    machinesSection(plant),
    windowsSection(plant),
    starterFiguresSection(plant),
  ];
  const span = months.length === 1 ? months[0]!.label : `${months[0]!.label} to ${months.at(-1)!.label}`;
  return [
    printParagraph(`${title}: the plant, ${span}`),
    '\n',
    ...sections.map((section) => printSection(section, units)),
    ...warnings.map(({ message }) => printParagraph(`Warning: ${message}`)),
  ].join('');
}
