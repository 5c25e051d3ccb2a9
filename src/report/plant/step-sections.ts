import type { Plant, PlantStep } from '../../plant/plant.js';
import { type ConstituentBalance, stepBalance } from '../../plant/step-balance.js';
import { ABSENT, formatFigure } from '../figure.js';
import { namesOf } from '../names.js';
import { figures, monthRange, type PlantSection, percent, words } from './plant-section.js';

/** Steps: what an hour takes in, how often it goes round, what a tonne costs. */
export function stepsSection(plant: Plant): PlantSection {
  const names = namesOf(plant);
  const { mass, currency } = plant.units;
  return {
    title: 'Steps',
    columns: [
      words('step'),
      words('machine'),
      words('input'),
      figures('net throughput', `${mass}/h`),
      figures('passes'),
      figures('circulating load'),
      figures('energy', `kWh/${mass}`),
      figures('wear', `${currency}/${mass}`),
    ],
    rows: plant.steps.map((step) => [
      step.name,
      names.machines[step.machine]!,
      names.materials[step.input]!,
      monthRange(step.throughput, 2),
      formatFigure(step.passes, 2),
      step.passes > 1 ? formatFigure(step.passes - 1, 2) : ABSENT,
      monthRange(step.energy, 1),
      monthRange(step.wear, 2),
    ]),
    notes: [
      `By mass of fresh input, all passes. Circulating load: mass that goes back for each mass of fresh input. Where months differ: the lowest and the highest.`,
    ],
  };
}

/** What each step makes, and what of, where the step says so. */
export function yieldsSection(plant: Plant): PlantSection {
  const names = namesOf(plant);
  return {
    title: 'Yields',
    columns: [words('step'), words('output'), figures('of input', '%'), words('made of, %')],
    rows: plant.steps.flatMap((step) =>
      step.yields.map(({ material, share, assay }, i) => [
        i === 0 ? step.name : '',
        names.materials[material]!,
        percent(share),
        assay === undefined ? ABSENT : assayInWords(assay),
      ]),
    ),
  };
}

/** Where each constituent goes, step by step. */
export function balanceSection(plant: Plant): PlantSection {
  const names = namesOf(plant);
  const rowsOf = (step: PlantStep, balance: ConstituentBalance, i: number) => [
    [i === 0 ? step.name : '', balance.constituent, names.materials[step.input]!, kg(balance.input), '', ''],
    ...balance.outputs
      .filter(({ mass }) => mass > 0)
      .map(({ material, mass, recovery }) => [
        '',
        '',
        names.materials[material]!,
        '',
        kg(mass),
        percent(recovery),
      ]),
    ['', '', 'difference', '', kg(balance.difference), ''],
  ];
  return {
    title: 'Mass balance of the steps by constituent',
    columns: [
      words('step'),
      words('constituent'),
      words('material'),
      figures('in', 'kg'),
      figures('out', 'kg'),
      figures('recovery', '%'),
    ],
    rows: plant.steps.flatMap((step) =>
      stepBalance(plant, step)
        .filter(({ input }) => input > 0)
        .flatMap((balance, i) => rowsOf(step, balance, i)),
    ),
    notes: [
      'By 1,000 kg of input. A step that states several shares does not say what its outputs are made of, and is left out.',
    ],
  };
}

/** Constituents in percent, those that are there. */
export function assayInWords(assay: Readonly<Record<string, number>>): string {
  return Object.entries(assay)
    .filter(([, share]) => share > 0)
    .map(([constituent, share]) => `${constituent} ${percent(share)}`)
    .join(', ');
}

function kg(share: number): string {
  return formatFigure(share * 1000, 2);
}
