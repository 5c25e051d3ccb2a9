import type { AffineChange } from '../../program/affine-change.js';
import type { PlanLimit } from '../limits/plan-limit.js';
import type { Ranger } from '../ranging/ranger.js';
import type { RentOverMonths } from './explanation.js';
import { bothSides, clean } from './rent-sides.js';

/** A unit more in every month at once, for what binds in any of several months. */
export function overMonthsOf(
  ranger: Ranger,
  limits: readonly PlanLimit[],
  binding: readonly PlanLimit[],
): (RentOverMonths | 'unanswered')[] {
  const groups = new Map<string, PlanLimit[]>();
  for (const limit of limits) {
    const name = JSON.stringify({ ...limit.key, month: 0 });
    groups.set(name, [...(groups.get(name) ?? []), limit]);
  }
  const bound = new Set(binding);
  return [...groups.values()]
    .filter((group) => group.length > 1 && group.some((limit) => bound.has(limit)))
    .map((group) => overMonths(ranger, group))
    .filter((each) => each === 'unanswered' || each.oneMore !== 0 || each.oneLess !== 0);
}

function overMonths(ranger: Ranger, group: readonly PlanLimit[]): RentOverMonths | 'unanswered' {
  const least = Math.min(...group.map(({ amount }) => amount));
  const { more, less } = bothSides(ranger, joined(group.map(({ change }) => change)), least);
  if (more.kind === 'unanswered' || less.kind === 'unanswered') return 'unanswered';
  return {
    limit: group[0].key,
    unit: group[0].unit,
    months: group.length,
    ...(more.kind === 'straight' ? { oneMore: clean(more.slope, ranger) } : {}),
    ...(less.kind === 'straight' ? { oneLess: clean(-less.slope, ranger) } : {}),
    ...(less.kind === 'straight' && Number.isFinite(less.end) ? { holdsLess: less.end } : {}),
    ...(more.kind === 'straight' && Number.isFinite(more.end) ? { holdsMore: more.end } : {}),
  };
}

function joined(changes: readonly AffineChange[]): AffineChange {
  const all = (of: (change: AffineChange) => ReadonlyMap<number, number>) =>
    new Map(changes.flatMap((change) => [...of(change)]));
  return {
    offset: 0,
    cost: new Map(),
    matrix: new Map(),
    columnLower: all((change) => change.columnLower),
    columnUpper: all((change) => change.columnUpper),
    rowLower: all((change) => change.rowLower),
    rowUpper: all((change) => change.rowUpper),
  };
}
