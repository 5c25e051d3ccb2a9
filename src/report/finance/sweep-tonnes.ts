import { type ChartPoint, curveChart } from '../charts/curve-chart.js';
import type { NameById } from '../names.js';
import type { Table } from '../table.js';
import { axisTitle } from './parameter-words.js';
import type { SweepDocument, SweepTonnes } from './sweep-schema.js';
import { sweptWords } from './swept-words.js';

type Point = SweepDocument['points'][number];
type Kind = keyof SweepTonnes;

const KINDS: readonly (readonly [kind: Kind, word: string])[] = [
  ['received', 'received from feed'],
  ['run', 'through step'],
  ['sold', 'sold to outlet'],
  ['delivered', 'delivered on contract'],
  ['disposed', 'to disposal'],
  ['rungs', 'leaves as material'],
];

/** What a chart of curves can hold. */
const MOST_LINES = 3;

/** One line for each quantity on each side of each point. */
export function tonnesTable({ points, of, units }: Pick<SweepDocument, 'points' | 'of' | 'units'>): Table {
  return {
    columns: [
      { head: of.unit === '' ? 'at' : `at (${of.unit})`, kind: 'count' },
      { head: 'side', kind: 'text' },
      { head: 'what', kind: 'text' },
      { head: 'id', kind: 'text' },
      { head: `mass (${units.mass})`, kind: 'count' },
    ],
    rows: points.flatMap(({ at, tonnesLeft, tonnesRight }) =>
      [['left', tonnesLeft] as const, ['right', tonnesRight] as const].flatMap(([side, tonnes]) =>
        tonnes === null
          ? []
          : KINDS.flatMap(([kind, word]) =>
              Object.entries(tonnes[kind]).map(([id, mass]) => [at, side, word, id, mass]),
            ),
      ),
    ),
  };
}

/**
 * Tonnes over the swept number, for the quantities of one kind that move most. Undefined where no point tells its
 * tonnes.
 */
export function tonnesChart(
  document: SweepDocument,
  names: NameById = {},
  kind: Kind = 'rungs',
): string | undefined {
  const { points, units, title } = document;
  const lines = linesOf(points, kind).map(({ name, ...line }) => ({ ...line, name: names[name] ?? name }));
  if (lines.length === 0) return undefined;
  const words = sweptWords(document);
  return curveChart({
    title: `${title}: tonnes over ${words.name}`,
    description: `What ${wordOf(kind)} ${lines.map(({ name }) => name).join(', ')}, at the best plan.`,
    xTitle: axisTitle(words),
    yTitle: `Mass over the horizon (${units.mass})`,
    lines,
    guides: document.of.own === undefined ? [] : [{ x: document.of.own, label: 'as it is' }],
  });
}

function linesOf(points: readonly Point[], kind: Kind): { name: string; points: ChartPoint[] }[] {
  const told = points.flatMap(({ tonnesLeft, tonnesRight }) => tonnesLeft ?? tonnesRight ?? []);
  const ids = told.length === 0 ? [] : Object.keys(told[0][kind]);
  const lines = ids.map((name) => {
    const own = points.flatMap(({ at, tonnesLeft, tonnesRight }): ChartPoint[] =>
      [tonnesLeft, tonnesRight].flatMap((tonnes) =>
        tonnes === null ? [] : { x: at, y: tonnes[kind][name] },
      ),
    );
    const masses = own.map(({ y }) => y);
    return { name, points: own, span: Math.max(...masses) - Math.min(...masses), most: Math.max(...masses) };
  });
  return lines
    .filter(({ most }) => most > 0)
    .sort((a, b) => b.span - a.span || b.most - a.most)
    .slice(0, MOST_LINES)
    .map(({ name, points: own }) => ({ name, points: own }));
}

function wordOf(kind: Kind): string {
  return KINDS.find(([own]) => own === kind)?.[1] ?? kind;
}
