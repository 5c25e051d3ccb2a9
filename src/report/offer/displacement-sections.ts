import type { Plant } from '../../plant/plant.js';
import { movesInWords } from '../finance/words.js';
import { type Names, namesOf } from '../names.js';
import type { JudgedDocument } from '../offer-document.js';
import { moveNoun } from '../offer-words.js';
import type { Section } from '../section.js';
import type { TableRow } from '../table.js';

type Displaced = NonNullable<JudgedDocument['displaced']>;

export function gainSection({ displaced }: JudgedDocument): Section {
  return {
    title: 'Margin without and with the offer',
    table: {
      columns: [
        { head: 'month', kind: 'text' },
        { head: 'without', kind: 'money' },
        { head: 'with', kind: 'money' },
        { head: 'gain', kind: 'money' },
      ],
      rows: displaced === undefined ? [] : marginRows(displaced),
    },
    totals: 1,
  };
}

function marginRows({ months, bridge }: Displaced): TableRow[] {
  return [
    ...months.map(({ month, before, after }) => [month, before, after, after - before]),
    ['total', bridge.from, bridge.to, bridge.to - bridge.from],
  ];
}

export function bridgeSection({ displaced }: JudgedDocument, plant: Plant): Section {
  const definitions = Object.entries(displaced?.definitions ?? {});
  return {
    title: 'Bridge from one margin to the other',
    table: {
      columns: [
        { head: 'effect', kind: 'text' },
        { head: 'of', kind: 'text' },
        { head: 'amount', kind: 'money' },
      ],
      rows: displaced === undefined ? [] : bridgeRows(displaced, namesOf(plant)),
    },
    totals: 1,
    notes: definitions.map(([effect, meaning]) => `${effect}: ${meaning}.`),
  };
}

function bridgeRows({ bridge }: Displaced, names: Names): TableRow[] {
  return [
    ['margin without the offer', '', bridge.from],
    ...bridge.effects.flatMap(({ effect, amount, parts }): TableRow[] => [
      [effect, '', amount],
      ...parts.map((part) => ['', partInWords(part, names), part.amount]),
    ]),
    ['margin with the offer', '', bridge.to],
  ];
}

const LISTS: Readonly<Record<string, keyof Names>> = {
  feed: 'feeds',
  outlet: 'outlets',
  contract: 'contracts',
  step: 'steps',
};

/** @example partInWords({ line: 'outlet', id: 'turf' }, names) // 'outlet Turf infill' */
function partInWords({ line, id }: { readonly line: string; readonly id: string }, names: Names): string {
  if (line === id) return line;
  const list = LISTS[line];
  return `${line} ${list === undefined ? id : (names[list][id] ?? id)}`;
}

export function movesSection({ displaced, units }: JudgedDocument, plant: Plant): Section {
  return {
    title: 'What it displaces',
    table: {
      columns: [
        { head: 'what', kind: 'text' },
        { head: 'without', kind: 'count' },
        { head: 'with', kind: 'count' },
        { head: 'in', kind: 'text' },
      ],
      rows: [
        ...(displaced?.moves ?? []).map((move) => [
          moveNoun(move, plant),
          move.before,
          move.after,
          move.kind === 'attended' ? 'hours' : units.mass,
        ]),
        ...(displaced?.machines ?? []).map(({ machine, before, after }) => [
          `hours of ${namesOf(plant).machines[machine] ?? machine}`,
          before,
          after,
          'hours',
        ]),
      ],
    },
  };
}

const MOST_MOVES = 3;

export function monthsSection({ displaced }: JudgedDocument, plant: Plant): Section {
  return {
    title: 'Month by month',
    table: {
      columns: [
        { head: 'month', kind: 'text' },
        { head: 'what moves most, from without to with', kind: 'text' },
      ],
      rows: (displaced?.months ?? []).map(({ month, moves }) => [
        month,
        movesInWords(moves.slice(0, MOST_MOVES), plant),
      ]),
    },
  };
}
