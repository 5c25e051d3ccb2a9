import type { ReportUnits } from '../figure.js';
import { figure, first, type PlantTable, text } from './plant-table.js';

/** What is held, thrown away and paid besides, and the parts of the week. */
export function otherTables({ mass, currency }: ReportUnits): PlantTable[] {
  const rate = `${currency}/${mass}`;
  return [
    {
      key: 'disposals',
      title: 'Disposals',
      columns: [
        text('name', 'disposal'),
        figure('charge', 'charge', rate),
        figure('haulage', 'haulage', rate),
        figure('limit', 'limit', `${mass} a month`),
      ],
      computed: [],
    },
    {
      key: 'windows',
      title: 'Windows of the week',
      columns: [
        text('name', 'window'),
        text('from', 'from'),
        text('to', 'to'),
        figure('powerPrice', 'power', `${currency}/kWh`),
        figure('wageFactor', 'wages', 'times'),
      ],
      computed: [
        {
          head: 'hours',
          unit: 'h a month',
          of: ({ windows }, id) => first(windows.find((each) => each.id === id)?.hours, 1),
        },
      ],
    },
    {
      key: 'materials',
      title: 'Materials and stocks',
      columns: [
        text('name', 'material'),
        text('form', 'form'),
        figure('stock/opening', 'opening stock', mass),
        figure('stock/min', 'at least', mass),
        figure('stock/capacity', 'at most', mass),
        figure('stock/closing/min', 'at the end, at least', mass),
        figure('stock/holdingCost', 'holding', `${rate} a month`),
      ],
      computed: [],
    },
    {
      key: 'stores',
      title: 'Stores',
      columns: [text('name', 'store'), figure('capacity', 'room', mass)],
      computed: [],
    },
    {
      key: 'fixedCosts',
      title: 'Fixed costs',
      columns: [text('name', 'what'), figure('perMonth', 'a month', currency)],
      computed: [],
    },
  ];
}
