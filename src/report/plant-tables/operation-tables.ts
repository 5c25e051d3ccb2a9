import { formatFigure, type ReportUnits } from '../figure.js';
import { sumOf } from '../sum.js';
import { figure, type PlantTable, text } from './plant-table.js';

const STAFFING = ['hourly', 'by the shift', 'by the month'];

/** What works, who attends it, and when. */
export function operationTables({ currency }: ReportUnits): PlantTable[] {
  return [
    {
      key: 'machines',
      title: 'Machines',
      columns: [
        text('name', 'machine'),
        figure('count', 'count'),
        figure('availability', 'availability', 'share'),
        figure('maintenanceHours', 'maintenance', 'h a month'),
        text('crew', 'crew'),
      ],
      computed: [
        {
          head: 'hours it has',
          unit: 'h a month',
          of: ({ machines }, id) => {
            const machine = machines.find((each) => each.id === id);
            return machine === undefined
              ? ''
              : formatFigure(
                  sumOf(machine.available, ([hours]) => hours),
                  1,
                );
          },
        },
      ],
    },
    {
      key: 'crews',
      title: 'Crews',
      columns: [
        text('name', 'crew'),
        figure('people', 'people'),
        figure('wage', 'wage', `${currency} a person-hour`),
        { ...text('staffing', 'paid'), kind: 'choice', choices: STAFFING },
      ],
      computed: [],
    },
  ];
}
