import type { ReportUnits } from '../figure.js';
import { figure, first, type PlantTable, text } from './plant-table.js';

/** Where material is sold. */
export function salesTables({ mass, currency }: ReportUnits): PlantTable[] {
  const rate = `${currency}/${mass}`;
  return [
    {
      key: 'outlets',
      title: 'Outlets',
      columns: [
        text('name', 'outlet'),
        text('material', 'material'),
        figure('price', 'price', rate),
        figure('limit', 'limit', `${mass} a month`),
        figure('freight', 'freight', rate),
        figure('packing', 'packing', rate),
        figure('paymentDays', 'paid after', 'days'),
      ],
      computed: [
        {
          head: 'pays',
          unit: `${rate}, by tier`,
          of: ({ outlets }, id) =>
            (outlets.find((each) => each.id === id)?.tiers ?? [])
              .map(({ price }) => first(price, 2))
              .join('; '),
        },
      ],
    },
    {
      key: 'contracts',
      title: 'Contracts',
      columns: [
        text('name', 'contract'),
        text('buyer', 'buyer'),
        text('from', 'from'),
        text('to', 'to'),
        figure('monthly/min', 'at least', `${mass} a month`),
        figure('monthly/max', 'at most', `${mass} a month`),
        figure('shortfall/charge', 'charge if missed', rate),
        figure('freight', 'freight', rate),
        figure('packing', 'packing', rate),
        figure('paymentDays', 'paid after', 'days'),
      ],
      computed: [
        {
          head: 'price now',
          unit: rate,
          of: ({ contracts }, id) =>
            Object.values(contracts.find((each) => each.id === id)?.price ?? {})
              .map((price) => first(price, 2))
              .join('; '),
        },
      ],
    },
  ];
}
