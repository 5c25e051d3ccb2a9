import type { Plant } from '../../plant/plant.js';
import { ABSENT, formatFigure } from '../figure.js';
import { namesOf } from '../names.js';
import { figures, monthRange, type PlantSection, words } from './plant-section.js';

/** Machines and the hours that they have in a month, all windows together. */
export function machinesSection(plant: Plant): PlantSection {
  const names = namesOf(plant);
  return {
    title: 'Machines',
    columns: [
      words('machine'),
      figures('count'),
      figures('availability', '%'),
      words('crew'),
      figures('hours a month', 'h'),
    ],
    rows: plant.machines.map(({ name, count, availability, crew, available }) => [
      name,
      formatFigure(count, 0),
      monthRange(
        availability.map((share) => share * 100),
        1,
      ),
      crew === undefined ? ABSENT : names.crews[crew]!,
      monthRange(
        plant.months.map(({ index }) => available.reduce((sum, hours) => sum + hours[index]!, 0)),
        1,
      ),
    ]),
  };
}

/** Windows of the week, with their days and hours in a month. */
export function windowsSection(plant: Plant): PlantSection {
  return {
    title: 'Windows',
    columns: [
      words('window'),
      figures('length', 'h'),
      figures('days a month'),
      figures('hours a month', 'h'),
      figures('power', `${plant.units.currency}/kWh`),
      figures('wage factor'),
    ],
    rows: plant.windows.map(({ name, length, days, hours, powerPrice, wageFactor }) => [
      name,
      formatFigure(length, 2),
      monthRange(days, 0),
      monthRange(hours, 1),
      monthRange(powerPrice, 4),
      formatFigure(wageFactor, 2),
    ]),
  };
}
