import type { Formulation } from '../../planning/formulate.js';
import type { GivingBound } from '../../program/elastic.js';
import type { LimitKey, LimitKind, PlanLimit } from '../limits/plan-limit.js';
import { planLimits } from '../limits/plan-limits.js';
import type { ConflictMember } from './conflict.js';

/** A limit or promise that may be left out or give way: its bounds in the program. */
export interface Member extends ConflictMember {
  readonly bounds: readonly GivingBound[];
  /** Which way the amount goes when each bound gives. */
  readonly ways: readonly (1 | -1)[];
  /** Units of the limit by unit of the bound. */
  readonly each: number;
}

/**
 * Everything that a scenario promises or limits, what tells least first: a conflict is told by its promises, and
 * by hours and supply only where these are needed.
 */
export function conflictMembers(formulation: Formulation): Member[] {
  const limits = planLimits(formulation).map(memberOf);
  return [...limits, ...staffingOf(formulation)].sort(
    (a, b) => TELLING.indexOf(a.limit.kind) - TELLING.indexOf(b.limit.kind) || b.limit.month - a.limit.month,
  );
}

const TELLING: readonly LimitKind[] = [
  'crewHours',
  'outletTier',
  'feedAvailable',
  'contractMaximum',
  'termMaximum',
  'stockMinimum',
  'machineHours',
  'stockCapacity',
  'disposalLimit',
  'store',
  'quality',
  'closingStock',
  'termMinimum',
  'contractCall',
  'contractMinimum',
  'feedCommitted',
];

function memberOf({ key, unit, amount, sense, place }: PlanLimit): Member {
  const sides = sense === 'equal' ? (['lower', 'upper'] as const) : [sense];
  return {
    limit: key,
    unit,
    amount,
    bounds: sides.map((bound) => ({ ...place, bound })),
    ways: sides.map((bound) => (bound === 'lower' ? -1 : 1)),
    each: 1,
  };
}

/** Days on which a crew can be called, where it is not paid by the hour. */
function staffingOf({ plant, program, columns }: Formulation): Member[] {
  return plant.crews.flatMap((crew, c) =>
    plant.windows.flatMap((window, w) =>
      plant.months.flatMap(({ index: month }): Member[] => {
        const column = columns.shifts[c][w]?.[month] ?? columns.open[c][w]?.[month];
        if (column === undefined || program.columnUpper[column] === 0) return [];
        const each = crew.staffing === 'by the shift' ? window.length : window.hours[month];
        const limit: LimitKey = { kind: 'crewHours', crew: crew.id, window: window.id, month };
        return [
          {
            limit,
            unit: 'crew-hour',
            amount: each * program.columnUpper[column],
            bounds: [{ kind: 'column', index: column, bound: 'upper' }],
            ways: [1],
            each,
          },
        ];
      }),
    ),
  );
}
