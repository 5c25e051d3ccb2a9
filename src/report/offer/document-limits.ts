import type { ConflictMember } from '../../analysis/conflict/conflict.js';
import type { LimitKey, LimitUnit } from '../../analysis/limits/plan-limit.js';
import type { Bottleneck } from '../../analysis/offer/bottlenecks.js';
import type { Limit } from '../../analysis/sweep/feasible-range.js';
import type { ColumnKey, RowKey } from '../../planning/keys.js';
import type { Plant } from '../../plant/plant.js';
import type { DocumentPlace } from '../plan-document.js';

/** A limit, or an outlet or contract to which nothing is left to give. */
export interface DocumentLimit {
  readonly kind: 'limit' | 'nothing left';
  readonly at: DocumentPlace;
  readonly months: readonly string[];
}

/** A promise or limit of a conflict, its month by name. */
export type DocumentConflict = Omit<LimitKey, 'month'> & {
  readonly month: string;
  readonly unit: LimitUnit;
  readonly amount: number;
};

export function conflictOf(plant: Plant, { limit, unit, amount }: ConflictMember): DocumentConflict {
  return { ...limit, month: plant.months[limit.month].label, unit, amount };
}

export function bottleneckOf(plant: Plant, { kind, of, months }: Bottleneck): DocumentLimit {
  return { kind, at: placeOf(of), months: months.map((month) => plant.months[month].label) };
}

/** Rows that no one set: what comes in goes out, machines need their crews. */
const FOLLOWS: ReadonlySet<string> = new Set(['balance', 'crew', 'peak']);

/** One entry a limit, with its months; not the volume itself, which is the offer's own row. */
export function limitsOf(plant: Plant, limits: readonly Limit[], offer: string): DocumentLimit[] {
  const groups = new Map<string, { at: DocumentPlace; months: string[] }>();
  for (const limit of limits) {
    const key = limit.kind === 'row' ? limit.row : limit.column;
    if (FOLLOWS.has(key.kind) || (key.kind === 'called' && key.contract === offer)) continue;
    const at = placeOf(key);
    const name = JSON.stringify(at);
    const group = groups.get(name) ?? { at, months: [] };
    if ('month' in key) group.months.push(plant.months[key.month].label);
    groups.set(name, group);
  }
  return [...groups.values()].map((group) => ({ kind: 'limit', ...group }));
}

function placeOf(key: RowKey | ColumnKey): DocumentPlace {
  const { month: _, ...place } = { month: 0, ...key };
  return place;
}
