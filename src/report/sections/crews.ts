import type { CrewUse, PlanMonth } from '../../planning/plan.js';
import type { Names } from '../names.js';
import type { PlanTotal } from '../plan-total.js';
import type { Section } from '../section.js';
import { sumOf } from '../sum.js';
import type { TableColumn, TableRow } from '../table.js';

/** Crews of a month by window: hours, and the shifts to call or whether the window is staffed. */
export function crewsSection(names: Names, month: PlanMonth): Section {
  const byShift = month.crews.some((crew) => crew.staffing === 'by the shift');
  const byMonth = month.crews.some((crew) => crew.staffing === 'by the month');
  const columns: TableColumn[] = [
    { head: 'crew', kind: 'text' },
    { head: 'window', kind: 'text' },
    ...(byShift
      ? ([
          { head: 'shifts to call', kind: 'count' },
          { head: 'of', kind: 'count' },
        ] as const)
      : []),
    ...(byMonth ? ([{ head: 'staffed', kind: 'text' }] as const) : []),
    { head: 'attended', kind: 'hours' },
    { head: 'wages', kind: 'money' },
  ];
  const row = (crew: CrewUse, window: string, part: CrewPart): TableRow => [
    names.crews[crew.crew],
    window,
    ...(byShift ? [part.shifts ?? '', part.days ?? ''] : []),
    ...(byMonth ? [part.staffed ?? ''] : []),
    part.hours,
    part.wages ?? '',
  ];
  return {
    title: 'Crews',
    table: { columns, rows: month.crews.flatMap((crew) => crewRows(names, crew, row)) },
  };
}

interface CrewPart {
  readonly hours: number;
  readonly shifts?: number;
  readonly days?: number;
  readonly staffed?: string;
  readonly wages?: number;
}

export function crewTotalsSection(names: Names, crews: PlanTotal['crews']): Section {
  return {
    title: 'Crews',
    table: {
      columns: [
        { head: 'crew', kind: 'text' },
        { head: 'staffing', kind: 'text' },
        { head: 'shifts to call', kind: 'count' },
        { head: 'attended', kind: 'hours' },
        { head: 'wages', kind: 'money' },
      ],
      rows: crews.map((each) => [names.crews[each.crew], each.staffing, each.shifts, each.hours, each.wages]),
    },
  };
}

function crewRows(
  names: Names,
  crew: CrewUse,
  row: (crew: CrewUse, window: string, part: CrewPart) => TableRow,
): TableRow[] {
  const { wages, windows } = crew;
  const parts = windows.map(({ window, hours, shifts, days, open }) => ({
    window: names.windows[window],
    hours,
    shifts,
    days,
    ...(open === undefined ? {} : { staffed: open ? 'yes' : 'no' }),
  }));
  if (parts.length === 1) return [row(crew, parts[0].window, { ...parts[0], wages })];
  const all: CrewPart = {
    hours: crew.hours,
    wages,
    ...(crew.staffing === 'by the shift'
      ? { shifts: sumOf(windows, (each) => each.shifts ?? 0), days: sumOf(windows, (each) => each.days ?? 0) }
      : {}),
  };
  return [...parts.map((part) => row(crew, part.window, part)), row(crew, 'all', all)];
}
