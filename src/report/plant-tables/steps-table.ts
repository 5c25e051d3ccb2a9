import type { Plant } from '../../plant/plant.js';
import { formatFigure, type ReportUnits } from '../figure.js';
import { figure, first, type PlantTable, text } from './plant-table.js';

/** The steps, with what follows from passes and yields. */
export function stepsTable({ mass, currency }: ReportUnits): PlantTable[] {
  const rate = `${currency}/${mass}`;
  return [
    {
      key: 'steps',
      title: 'Steps',
      columns: [
        text('name', 'step'),
        text('machine', 'machine'),
        text('input', 'input'),
        figure('throughput', 'throughput', `${mass}/h, a pass`),
        figure('energy', 'energy', `kWh/${mass}, a pass`),
        figure('wear', 'wear', `${rate}, a pass`),
      ],
      computed: [
        {
          head: 'net throughput',
          unit: `${mass}/h`,
          of: ({ steps }, id) => first(steps.find((each) => each.id === id)?.throughput, 2),
        },
        {
          head: 'passes',
          unit: '',
          of: ({ steps }, id) => first([steps.find((each) => each.id === id)?.passes ?? 1], 2),
        },
        { head: 'makes', unit: '% of input', of: yieldsOf },
      ],
    },
  ];
}

function yieldsOf({ steps, materials }: Plant, id: string): string {
  const names = new Map(materials.map((material) => [material.id, material.name]));
  return (steps.find((each) => each.id === id)?.yields ?? [])
    .filter(({ share }) => share > 0)
    .map(({ material, share }) => `${names.get(material)} ${formatFigure(share * 100, 1)}`)
    .join('; ');
}
