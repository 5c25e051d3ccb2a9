import type { ReportUnits } from '../figure.js';
import { figure, first, type PlantTable, text } from './plant-table.js';

/** Where tires come from. */
export function feedsTable({ mass, currency }: ReportUnits): PlantTable[] {
  const rate = `${currency}/${mass}`;
  return [
    {
      key: 'feeds',
      title: 'Feeds',
      columns: [
        text('name', 'feed'),
        text('material', 'material'),
        figure('tippingFee', 'tipping fee', `${rate}, or n / tire`),
        figure('haulage', 'haulage', rate),
        figure('committed', 'committed', `${mass} a month`),
        figure('available', 'available', `${mass} a month`),
        figure('paymentDays', 'paid after', 'days'),
      ],
      computed: [
        {
          head: 'fee by mass',
          unit: rate,
          of: ({ feeds }, id) => first(feeds.find((each) => each.id === id)?.fee, 2),
        },
      ],
    },
  ];
}
