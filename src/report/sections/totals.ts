import type { Names } from '../names.js';
import type { PlanTotal } from '../plan-total.js';
import type { Section } from '../section.js';
import { shareOf } from '../sum.js';

/** How the plant runs over all months. */

export function stepTotalsSection(names: Names, steps: PlanTotal['steps']): Section {
  return {
    title: 'Steps',
    table: {
      columns: [
        { head: 'step', kind: 'text' },
        { head: 'machine', kind: 'text' },
        { head: 'input', kind: 'text' },
        { head: 'mass', kind: 'mass' },
        { head: 'hours', kind: 'hours' },
      ],
      rows: steps.map((each) => [
        names.steps[each.step],
        names.machines[each.machine],
        names.materials[each.input],
        each.mass,
        each.hours,
      ]),
    },
  };
}

export function machineTotalsSection(names: Names, machines: PlanTotal['machines']): Section {
  return {
    title: 'Machine hours',
    table: {
      columns: [
        { head: 'machine', kind: 'text' },
        { head: 'used', kind: 'hours' },
        { head: 'available', kind: 'hours' },
        { head: 'use', kind: 'share' },
      ],
      rows: machines.map((each) => [
        names.machines[each.machine],
        each.hours,
        each.available,
        shareOf(each.hours, each.available),
      ]),
    },
  };
}
