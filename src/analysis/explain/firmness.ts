import type { Formulation } from '../../planning/formulate.js';
import type { ColumnKey } from '../../planning/keys.js';
import { type CostSide, costSide, type Step } from '../ranging/cost-side.js';
import type { Ranger } from '../ranging/ranger.js';
import type { ChangedNoun, Firmness, FirmSide, PlanChange } from './explanation.js';
import { pricedNumbers } from './priced-numbers.js';

/** What a column must move by, relative to all, to be named. */
const NAMED = 1e-6;
const MOST_NAMED = 4;

/**
 * For every price and cost that the plan uses, moved by the same amount in every month: how far the plan stays
 * the best, and what changes first beyond.
 */
export function firmnessOf(
  formulation: Formulation,
  ranger: Ranger,
  point: Float64Array,
): { readonly entries: readonly Firmness[]; readonly unanswered: number } {
  let unanswered = 0;
  const entries = pricedNumbers(formulation).flatMap((priced): Firmness[] => {
    const inUse = priced.columns.map((month) => month.some(({ column }) => point[column] > 1e-7));
    if (!inUse.includes(true)) return [];
    const rates = new Map<number, number>();
    for (const { column, rate } of priced.columns.flat()) {
      rates.set(column, (rates.get(column) ?? 0) + rate);
    }
    const now = priced.now.filter((_, month) => priced.columns[month].length > 0);
    if (now.every((amount) => amount === 0)) return [];
    const less = costSide(ranger, rates, -1, { point, ...reachOf(priced.fall) });
    const more = costSide(ranger, rates, 1, { point, ...reachOf(priced.rise) });
    if (less.kind === 'unanswered' || more.kind === 'unanswered') {
      unanswered += 1;
      return [];
    }
    const { number, unit } = priced;
    return [{ number, unit, now, less: sideOf(formulation, less), more: sideOf(formulation, more) }];
  });
  return { entries, unanswered };
}

function reachOf(reach: number | undefined) {
  return reach === undefined ? {} : { reach };
}

function sideOf(formulation: Formulation, side: Extract<CostSide, { kind: 'stays' }>): FirmSide {
  if (side.next === undefined) return { changes: [] };
  return { by: side.end, changes: changesOf(formulation, side.next) };
}

/** Steps of columns added up by noun over the months, the largest first. */
function changesOf({ program }: Formulation, steps: readonly Step[]): PlanChange[] {
  const byNoun = new Map<string, { what: ChangedNoun; by: number }>();
  for (const { column, by } of steps) {
    const what = nounOf(program.columnKeys[column]);
    if (what === undefined) continue;
    const name = JSON.stringify(what);
    byNoun.set(name, { what, by: (byNoun.get(name)?.by ?? 0) + by });
  }
  const changes = [...byNoun.values()].sort((a, b) => Math.abs(b.by) - Math.abs(a.by));
  const largest = Math.abs(changes[0]?.by ?? 0);
  return changes.filter(({ by }) => Math.abs(by) > NAMED * largest).slice(0, MOST_NAMED);
}

function nounOf(key: ColumnKey): ChangedNoun | undefined {
  switch (key.kind) {
    case 'receive':
      return { kind: key.kind, feed: key.feed };
    case 'run':
      return { kind: key.kind, step: key.step };
    case 'sell':
      return { kind: key.kind, outlet: key.outlet };
    case 'deliver':
    case 'dispose':
      return key.kind === 'deliver'
        ? { kind: key.kind, contract: key.contract, material: key.material }
        : { kind: key.kind, disposal: key.disposal, material: key.material };
    case 'stock':
      return { kind: key.kind, material: key.material };
    case 'missed':
      return { kind: key.kind, contract: key.contract };
    default:
      return undefined;
  }
}
