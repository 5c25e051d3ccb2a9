import type { ByMonth, Plant, PlantStep } from '../../plant/plant.js';
import { stepBalance } from '../../plant/step-balance.js';
import { ABSENT, formatFigure } from '../figure.js';
import { namesOf } from '../names.js';
import type { Section } from '../section.js';
import type { TableColumn } from '../table.js';

/** Steps: what an hour takes in, how often it goes round, and what a tonne costs. */
export function stepsSection(plant: Plant): Section {
  const names = namesOf(plant);
  const { mass, currency } = plant.units;
  const rows = plant.steps.map((step) => [
    step.name,
    names.machines[step.machine],
    names.materials[step.input],
    range(step.throughput, 2),
    formatFigure(step.passes, 2),
    step.passes > 1 ? formatFigure(step.passes - 1, 2) : ABSENT,
    range(step.energy, 1),
    range(step.wear, 2),
  ]);
  return {
    title: 'Steps',
    table: {
      columns: texts(
        'step',
        'machine',
        'input',
        `net ${mass}/h`,
        'passes',
        'goes round',
        `kWh/${mass}`,
        `wear, ${currency}/${mass}`,
      ),
      rows,
    },
    notes: [
      'Net of what goes round; goes round: circulating load, mass sent back for each mass of input. Energy and wear by mass of input, all passes. Two figures: lowest and highest month.',
    ],
  };
}

/** Yields of each step, and what its outputs are made of where it says so. */
export function yieldsSection(plant: Plant): Section {
  const names = namesOf(plant);
  const constituents = constituentsOf(plant.steps);
  return {
    title: 'Yields',
    table: {
      columns: [
        ...texts('step', 'output'),
        { head: 'of input', kind: 'share' },
        ...constituents.map((head): TableColumn => ({ head, kind: 'share' })),
      ],
      rows: plant.steps.flatMap((step) =>
        step.yields.map(({ material, share, assay }) => [
          step.name,
          names.materials[material],
          share,
          ...constituents.map((constituent) => assay?.[constituent]),
        ]),
      ),
    },
  };
}

/** Where each constituent goes, step by step, in parts of a thousand of the input. */
export function balanceSection(plant: Plant): Section {
  const names = namesOf(plant);
  const rows = plant.steps.flatMap((step) =>
    stepBalance(plant, step).flatMap(({ constituent, input, outputs, difference }) => [
      [step.name, constituent, names.materials[step.input], formatFigure(input * 1000, 2), '', ''],
      ...outputs.map(({ material, mass, recovery }) => [
        '',
        '',
        names.materials[material],
        '',
        formatFigure(mass * 1000, 2),
        input === 0 ? ABSENT : formatFigure(recovery * 100, 1),
      ]),
      ['', '', 'difference', '', formatFigure(difference * 1000, 2), ''],
    ]),
  );
  return {
    title: `Mass balance of the steps by constituent, kg by 1,000 kg of input`,
    table: { columns: texts('step', 'constituent', 'material', 'in', 'out', 'recovery, %'), rows },
    notes: ['A step that states several shares does not say what its outputs are made of, and is left out.'],
  };
}

function constituentsOf(steps: readonly PlantStep[]): string[] {
  const assays = steps.flatMap(({ yields }) => yields.flatMap(({ assay }) => assay ?? []));
  return [...new Set(assays.flatMap((assay) => Object.keys(assay)))].slice(0, MOST_CONSTITUENTS);
}

const MOST_CONSTITUENTS = 6;

function texts(...heads: readonly string[]): TableColumn[] {
  return heads.map((head) => ({ head, kind: 'text' }));
}

function range(figures: ByMonth, digits: number): string {
  const [low, high] = [Math.min(...figures), Math.max(...figures)].map((value) =>
    formatFigure(value, digits),
  );
  return low === high ? low! : `${low} to ${high}`;
}
