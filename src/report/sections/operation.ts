import type { PlanMonth, StepUse } from '../../planning/plan.js';
import { formatKind, type ReportUnits } from '../figure.js';
import type { Names } from '../names.js';
import type { Section } from '../section.js';
import { shareOf } from '../sum.js';
import type { TableRow } from '../table.js';

/** How the plant runs in a month: steps, machines and energy. */

export function stepsSection(names: Names, month: PlanMonth): Section {
  return {
    title: 'Steps by machine',
    table: {
      columns: [
        { head: 'machine', kind: 'text' },
        { head: 'step', kind: 'text' },
        { head: 'input', kind: 'text' },
        { head: 'mass', kind: 'mass' },
        { head: 'hours', kind: 'hours' },
      ],
      rows: byMachine(month).map((each) => [
        names.machines[each.machine],
        names.steps[each.step],
        names.materials[each.input],
        each.mass,
        each.hours,
      ]),
    },
  };
}

/** The windows in which each step runs, where there are several. */
export function stepWindowsSection(names: Names, month: PlanMonth): Section {
  return {
    title: 'Steps by window',
    table: {
      columns: [
        { head: 'step', kind: 'text' },
        { head: 'window', kind: 'text' },
        { head: 'mass', kind: 'mass' },
        { head: 'hours', kind: 'hours' },
      ],
      rows: byMachine(month)
        .filter((each) => each.windows.length > 1)
        .flatMap((each) =>
          each.windows
            .filter(({ mass }) => mass > NOTHING * each.mass)
            .map(({ window, mass, hours }) => [names.steps[each.step], names.windows[window], mass, hours]),
        ),
    },
  };
}

/** What each step that runs makes. */
export function outputsSection(names: Names, month: PlanMonth): Section {
  return {
    title: 'Made by steps',
    table: {
      columns: [
        { head: 'step', kind: 'text' },
        { head: 'material', kind: 'text' },
        { head: 'made', kind: 'mass' },
      ],
      rows: byMachine(month).flatMap((each) =>
        each.outputs
          .filter(({ mass }) => mass > NOTHING * each.mass)
          .map(({ material, mass }) => [names.steps[each.step], names.materials[material], mass]),
      ),
    },
  };
}

/** Share of a step's mass below which a mass is the solver's rounding, not a decision. */
const NOTHING = 1e-9;

export function machinesSection(names: Names, month: PlanMonth): Section {
  return {
    title: 'Machine hours',
    table: {
      columns: [
        { head: 'machine', kind: 'text' },
        { head: 'window', kind: 'text' },
        { head: 'used', kind: 'hours' },
        { head: 'available', kind: 'hours' },
        { head: 'use', kind: 'share' },
      ],
      rows: month.machines.flatMap((each) => {
        const name = names.machines[each.machine];
        const row = (window: string, hours: number, available: number): TableRow => [
          name,
          window,
          hours,
          available,
          shareOf(hours, available),
        ];
        const windows = each.windows.map((part) =>
          row(names.windows[part.window], part.hours, part.available),
        );
        return windows.length > 1 ? [...windows, row('all', each.hours, each.available)] : windows;
      }),
    },
  };
}

export function energySection(names: Names, month: PlanMonth, units: ReportUnits): Section {
  const { total, windows, peak, peakWindow } = month.energy;
  const setBy = peakWindow === undefined ? '' : `, set by ${names.windows[peakWindow]}`;
  return {
    title: 'Energy',
    table: {
      columns: [
        { head: 'window', kind: 'text' },
        { head: 'energy', kind: 'energy' },
        { head: 'power price', kind: 'money by energy' },
        { head: 'average load', kind: 'load' },
        { head: "attended, of the window's hours", kind: 'share' },
      ],
      rows: [
        ...windows.map((each) => [
          names.windows[each.window],
          each.energy,
          each.powerPrice,
          each.averageLoad,
          each.attendedShare,
        ]),
        ['total', total, '', '', ''],
      ],
    },
    totals: 1,
    notes:
      peak === undefined
        ? []
        : [`Peak for the demand charge: ${formatKind(peak, 'load', units)} kW${setBy}.`],
  };
}

/** Steps in the order of their machines. */
function byMachine(month: PlanMonth): StepUse[] {
  return month.machines.flatMap(({ machine }) => month.steps.filter((step) => step.machine === machine));
}
