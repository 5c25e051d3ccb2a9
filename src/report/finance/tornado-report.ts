import type { TornadoAnswer, TornadoBar, TornadoSide } from '../../analysis/tornado/tornado.js';
import type { Plant } from '../../plant/plant.js';
import { tornadoChart } from '../charts/tornado-chart.js';
import { formatMoney } from '../figure.js';
import type { Table } from '../table.js';
import { parameterWords } from './parameter-words.js';
import { plain } from './plain.js';
import type { QuestionReport } from './question-report.js';
import { movesInWords } from './words.js';

export const TORNADO_FORMAT = 'cutpoint-tornado/1';

/** Which numbers matter: in every form. `document` is the scenario's own. */
export function tornadoReport(document: unknown, plant: Plant, answer: TornadoAnswer): QuestionReport {
  const { units, title } = plant;
  const names = answer.bars.map(
    ({ pointers, kind }) => parameterWords(document, { pointers, kind }, units).name,
  );
  const table = barsTable(answer, names);
  const widest = answer.bars[0];
  return {
    document: {
      format: TORNADO_FORMAT,
      title,
      units,
      ...answer,
      bars: answer.bars.map((bar, i) => ({
        ...bar,
        name: names[i],
        low: sideDocument(bar.low, plant),
        high: sideDocument(bar.high, plant),
      })),
    },
    units,
    headline: [
      `${title}: present value ${formatMoney(answer.base, units.currency)} as it is.`,
      ...(widest?.swing === undefined
        ? []
        : [
            `What matters most is ${names[0]}: it moves the value by ${formatMoney(widest.swing, units.currency)}.`,
          ]),
      ...(answer.status === 'partial' ? ['Stopped: this is a part of the answer.'] : []),
    ],
    sections: [
      {
        title: 'Swings, each with the best plan',
        table,
        notes: answer.bars.flatMap((bar, i) => notesOf(bar, names[i], plant)),
      },
    ],
    tables: [{ name: 'tornado', table }],
    charts: [
      {
        name: 'tornado',
        svg: tornadoChart({
          title: `${title}: how far each number moves the present value`,
          description: `The best plan at the low and the high of ${names.length} numbers, widest swing first.`,
          xTitle: `Present value (${units.currency})`,
          base: answer.base,
          bars: answer.bars.map(({ low, high }, i) => ({
            name: names[i],
            ...(low.status === 'planned' ? { low: low.value } : {}),
            ...(high.status === 'planned' ? { high: high.value } : {}),
            lowLabel: plain(low.at),
            highLabel: plain(high.at),
          })),
        }),
      },
    ],
  };
}

function barsTable({ bars }: TornadoAnswer, names: readonly string[]): Table {
  const value = (side: TornadoSide) => (side.status === 'planned' ? side.value : undefined);
  const loss = (side: TornadoSide) => (side.status === 'planned' ? side.lossUnchanged : undefined);
  return {
    columns: [
      { head: 'number', kind: 'text' },
      { head: 'low', kind: 'text' },
      { head: 'high', kind: 'text' },
      { head: 'value at low', kind: 'money' },
      { head: 'value at high', kind: 'money' },
      { head: 'swing', kind: 'money' },
      { head: 'plan kept at low loses', kind: 'money' },
      { head: 'plan kept at high loses', kind: 'money' },
    ],
    rows: bars.map(({ low, high, swing }, i) => [
      names[i],
      plain(low.at),
      plain(high.at),
      value(low),
      value(high),
      swing,
      loss(low),
      loss(high),
    ]),
  };
}

function notesOf({ low, high }: TornadoBar, name: string, plant: Plant): string[] {
  return [low, high].map((side) => `${name} at ${plain(side.at)}: ${sideInWords(side, plant)}.`);
}

function sideInWords(side: TornadoSide, plant: Plant): string {
  if (side.status === 'invalid') {
    return `no valid scenario: ${(side.problems[0]?.message ?? '').replace(/\.$/, '')}`;
  }
  if (side.status === 'infeasible') return 'no plan meets all the limits together';
  if (side.status !== 'planned') return side.status;
  const cannot = side.lossUnchanged === undefined ? '; the plan as it is cannot be kept' : '';
  return `${movesInWords(side.moves, plant)}${cannot}`;
}

function sideDocument(side: TornadoSide, plant: Plant) {
  return { ...side, change: sideInWords(side, plant) };
}
