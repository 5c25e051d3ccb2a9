import { EFFECT_DEFINITIONS } from '../../analysis/comparison/bridge.js';
import type { Comparison } from '../../analysis/comparison/compared.js';
import type { Plant } from '../../plant/plant.js';
import { bridgeChart } from '../charts/bridge-chart.js';
import { formatMoney } from '../figure.js';
import type { Table } from '../table.js';
import type { QuestionReport } from './question-report.js';

export const COMPARISON_FORMAT = 'cutpoint-comparison/1';

/** The bridge from one scenario's margin to another's, in every form. */
export function comparisonReport(before: Plant, after: Plant, bridge: Comparison): QuestionReport {
  const { units } = before;
  const effects: Table = {
    columns: [
      { head: 'effect', kind: 'text' },
      { head: 'amount', kind: 'money' },
    ],
    rows: [
      [`margin of ${before.title}`, bridge.from],
      ...bridge.effects.map(({ effect, amount }): [string, number] => [effect, amount]),
      [`margin of ${after.title}`, bridge.to],
    ],
  };
  const parts: Table = {
    columns: [
      { head: 'effect', kind: 'text' },
      { head: 'of', kind: 'text' },
      { head: 'id', kind: 'text' },
      { head: 'amount', kind: 'money' },
    ],
    rows: bridge.effects.flatMap(({ effect, parts: own }) =>
      own.map(({ line, id, amount }) => [effect, line, id, amount]),
    ),
  };
  return {
    document: {
      format: COMPARISON_FORMAT,
      before: before.title,
      after: after.title,
      units,
      ...bridge,
      definitions: EFFECT_DEFINITIONS,
    },
    units,
    headline: [
      `From ${before.title} to ${after.title} the margin moves by ${formatMoney(bridge.to - bridge.from, units.currency)}.`,
      ...(bridge.status === 'partial'
        ? ['Stopped: one of the plans is the best found until then, not the best there is.']
        : []),
    ],
    sections: [
      {
        title: 'Bridge',
        table: effects,
        totals: 1,
        notes: Object.entries(EFFECT_DEFINITIONS).map(([effect, meaning]) => `${effect}: ${meaning}.`),
      },
      { title: 'Its parts', table: parts },
    ],
    tables: [
      { name: 'comparison', table: effects },
      { name: 'comparison-parts', table: parts },
    ],
    charts: [
      {
        name: 'comparison',
        svg: bridgeChart({
          title: `From the margin of ${before.title} to that of ${after.title}`,
          description: 'Bars up are gains, bars down are losses; they add up.',
          yTitle: `Margin (${units.currency})`,
          from: { name: 'before', value: bridge.from },
          to: { name: 'after', value: bridge.to },
          steps: bridge.effects.map(({ effect, amount }) => ({ name: effect, amount })),
        }),
      },
    ],
  };
}
