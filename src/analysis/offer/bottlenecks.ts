import type { ColumnKey, RowKey } from '../../planning/keys.js';
import type { Plant } from '../../plant/plant.js';
import { reducedCostOf } from '../../program/affine-change.js';
import { rowActivities } from '../../program/linear-program.js';
import type { Best } from './best.js';

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

/**
 * What binds in each plan and not in the one before it; for the first plan nothing. Balances and what only follows
 * from others are left out.
 */
export function newBottlenecks(plans: readonly Best[], plant: Plant): Bottleneck[][] {
  let earlier: Binding | undefined;
  return plans.map((plan) => {
    const now = binding(plan);
    const before = earlier;
    earlier = now;
    return before === undefined ? [] : grouped(plan, now, before, plant);
  });
}

/** By row, then by column: 0 where it does not bind. */
type Binding = Uint8Array;

const LIMIT = 1;
const NOTHING_LEFT = 2;

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
const LIMIT_COLUMNS: ReadonlySet<ColumnKey['kind']> = new Set([
  'receive',
  'sell',
  'stock',
  'missed',
  'attended',
]);
const GIVEN_UP: ReadonlySet<ColumnKey['kind']> = new Set(['sell', 'deliver', 'run', 'stock', 'dispose']);

function binding({ formulation, primal, rowDual }: Best): Binding {
  const { program } = formulation;
  const { rowKeys, columnKeys, columnLower, columnUpper, rowLower, rowUpper } = program;
  const least = PRICED * rowDual.reduce((most, dual) => Math.max(most, Math.abs(dual)), 0);
  const activity = rowActivities(program, primal);
  const found = new Uint8Array(rowKeys.length + columnKeys.length);
  for (let i = 0; i < rowKeys.length; i++) {
    if (Math.abs(rowDual[i]) <= least || !LIMIT_ROWS.has(rowKeys[i].kind)) continue;
    if (isAt(activity[i], rowUpper[i]) || isAt(activity[i], rowLower[i])) found[i] = LIMIT;
  }
  for (let j = 0; j < columnKeys.length; j++) {
    const [lower, upper, value] = [columnLower[j], columnUpper[j], primal[j]];
    const [atLower, atUpper] = [isAt(value, lower), isAt(value, upper)];
    if (lower === upper || (!atLower && !atUpper)) continue;
    const { kind } = columnKeys[j];
    const isLimit = LIMIT_COLUMNS.has(kind) && (atUpper || lower > 0);
    if (!isLimit && !(atLower && GIVEN_UP.has(kind))) continue;
    if (Math.abs(reducedCostOf(program, j, rowDual)) <= least) continue;
    found[rowKeys.length + j] = isLimit ? LIMIT : NOTHING_LEFT;
  }
  return found;
}

function grouped({ formulation }: Best, now: Binding, before: Binding, plant: Plant): Bottleneck[] {
  const { rowKeys, columnKeys } = formulation.program;
  const groups = new Map<string, { kind: Bottleneck['kind']; of: RowKey | ColumnKey; months: number[] }>();
  now.forEach((state, at) => {
    if (state === 0 || state === before[at]) return;
    const kind = state === LIMIT ? 'limit' : 'nothing left';
    const of = at < rowKeys.length ? rowKeys[at] : columnKeys[at - rowKeys.length];
    const { month, ...noun } = { month: undefined, ...of };
    const name = JSON.stringify([kind, noun]);
    const group = groups.get(name) ?? { kind, of, months: [] };
    group.months.push(month ?? plant.months.length - 1);
    groups.set(name, group);
  });
  return [...groups.values()];
}

function isAt(value: number, bound: number): boolean {
  return Number.isFinite(bound) && Math.abs(value - bound) <= AT * (1 + Math.abs(bound));
}
