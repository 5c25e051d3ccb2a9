import type { ColumnKey, RowKey } from '../../planning/keys.js';
import type { Plant } from '../../plant/plant.js';
import { reducedCostOf } from '../../program/affine-change.js';
import { type LinearProgram, rowActivities } from '../../program/linear-program.js';
import type { Best } from './offer-solver.js';

/**
 * What begins to bind: a limit that is full, or something of which nothing is left to give up (an outlet that gets
 * nothing any more). In the months listed, indices.
 */
export interface Bottleneck {
  readonly kind: 'limit' | 'nothing left';
  readonly of: RowKey | ColumnKey;
  readonly months: readonly number[];
}

/** Relative to the largest price: less is none. */
const PRICED = 1e-7;
/** Relative to the figure: how near it is to its bound when it stands at it. */
const AT = 1e-6;

/** What binds in the second plan and not in the first. Balances and what only follows from others are left out. */
export function newBottlenecks(before: Best, after: Best, plant: Plant): Bottleneck[] {
  const earlier = new Set(binding(before).map(({ name }) => name));
  const fresh = binding(after).filter(({ name }) => !earlier.has(name));
  const groups = new Map<string, { kind: Bottleneck['kind']; of: RowKey | ColumnKey; months: number[] }>();
  for (const { kind, of } of fresh) {
    const { month, ...noun } = { month: undefined, ...of };
    const name = JSON.stringify([kind, noun]);
    const group = groups.get(name) ?? { kind, of, months: [] };
    group.months.push(month ?? plant.months.length - 1);
    groups.set(name, group);
  }
  return [...groups.values()];
}

interface Binding {
  readonly kind: Bottleneck['kind'];
  readonly of: RowKey | ColumnKey;
  readonly name: string;
}

/** Rows that somebody's limit or promise stands behind. */
const LIMIT_ROWS: ReadonlySet<RowKey['kind']> = new Set([
  'machine',
  'attendance',
  'contractMinimum',
  'contractMaximum',
  'called',
  'termMinimum',
  'termMaximum',
  'quality',
  'store',
  'disposal',
]);
const LIMIT_COLUMNS: ReadonlySet<ColumnKey['kind']> = new Set(['receive', 'sell', 'stock', 'missed']);
const GIVEN_UP: ReadonlySet<ColumnKey['kind']> = new Set(['sell', 'deliver']);

function binding({ formulation, primal, rowDual }: Best): Binding[] {
  const { program } = formulation;
  const largest = rowDual.reduce((most, dual) => Math.max(most, Math.abs(dual)), 0);
  const isPriced = (price: number) => Math.abs(price) > PRICED * largest;
  const activity = rowActivities(program, primal);
  const rows = program.rowKeys.flatMap((of, i): Binding[] => {
    if (!LIMIT_ROWS.has(of.kind) || !isPriced(rowDual[i])) return [];
    const isFull = isAt(activity[i], program.rowUpper[i]) || isAt(activity[i], program.rowLower[i]);
    return isFull ? [named('limit', of)] : [];
  });
  const columns = program.columnKeys.flatMap((of, j) =>
    columnBinding(program, of, j, primal, rowDual, isPriced),
  );
  return [...rows, ...columns];
}

function columnBinding(
  program: LinearProgram,
  of: ColumnKey,
  j: number,
  primal: Float64Array,
  rowDual: Float64Array,
  isPriced: (price: number) => boolean,
): Binding[] {
  const canLimit = LIMIT_COLUMNS.has(of.kind);
  const canGive = GIVEN_UP.has(of.kind);
  if (!canLimit && !canGive) return [];
  const [lower, upper] = [program.columnLower[j], program.columnUpper[j]];
  if (lower === upper || !isPriced(reducedCostOf(program, j, rowDual))) return [];
  if (canLimit && isAt(primal[j], upper)) return [named('limit', of)];
  if (canGive && isAt(primal[j], lower)) return [named('nothing left', of)];
  if (canLimit && lower > 0 && isAt(primal[j], lower)) return [named('limit', of)];
  return [];
}

function named(kind: Bottleneck['kind'], of: RowKey | ColumnKey): Binding {
  return { kind, of, name: JSON.stringify([kind, of]) };
}

function isAt(value: number, bound: number): boolean {
  return Number.isFinite(bound) && Math.abs(value - bound) <= AT * (1 + Math.abs(bound));
}
