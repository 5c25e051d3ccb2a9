import type { ReportUnits } from '../figure.js';
import { feedsTable } from './feeds-table.js';
import { operationTables } from './operation-tables.js';
import { otherTables } from './other-tables.js';
import type { PlantTable } from './plant-table.js';
import { salesTables } from './sales-tables.js';
import { stepsTable } from './steps-table.js';

/** The tables of a plant, in the order in which tires go through it. */
export function plantTables(units: ReportUnits): PlantTable[] {
  return [
    ...feedsTable(units),
    ...operationTables(units),
    ...stepsTable(units),
    ...salesTables(units),
    ...otherTables(units),
  ];
}
