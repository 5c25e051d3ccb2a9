import type { PlannedDocument } from '../plan-document.js';
import type { Table } from '../table.js';
import { rowsByMonth } from './rows.js';

export function stepsTable(document: PlannedDocument): Table {
  const { names } = document;
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'step', kind: 'text' },
      { head: 'name', kind: 'text' },
      { head: 'machine', kind: 'text' },
      { head: 'input', kind: 'text' },
      { head: 'window', kind: 'text' },
      { head: 'mass', kind: 'mass' },
      { head: 'machine hours', kind: 'hours' },
    ],
    rows: rowsByMonth(document, (month) =>
      month.steps.flatMap(({ step, machine, input, windows }) =>
        windows.map((each) => [step, names.steps[step], machine, input, each.window, each.mass, each.hours]),
      ),
    ),
  };
}

export function outputsTable(document: PlannedDocument): Table {
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'step', kind: 'text' },
      { head: 'material', kind: 'text' },
      { head: 'made', kind: 'mass' },
    ],
    rows: rowsByMonth(document, (month) =>
      month.steps.flatMap(({ step, outputs }) => outputs.map((each) => [step, each.material, each.mass])),
    ),
  };
}

export function machinesTable(document: PlannedDocument): Table {
  const { names } = document;
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'machine', kind: 'text' },
      { head: 'name', kind: 'text' },
      { head: 'window', kind: 'text' },
      { head: 'used', kind: 'hours' },
      { head: 'available', kind: 'hours' },
    ],
    rows: rowsByMonth(document, (month) =>
      month.machines.flatMap(({ machine, windows }) =>
        windows.map((each) => [machine, names.machines[machine], each.window, each.hours, each.available]),
      ),
    ),
  };
}

export function crewsTable(document: PlannedDocument): Table {
  const { names } = document;
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'crew', kind: 'text' },
      { head: 'name', kind: 'text' },
      { head: 'staffing', kind: 'text' },
      { head: 'window', kind: 'text' },
      { head: 'attended', kind: 'hours' },
      { head: 'shifts to call', kind: 'count' },
      { head: 'days', kind: 'count' },
      { head: 'staffed', kind: 'text' },
    ],
    rows: rowsByMonth(document, (month) =>
      month.crews.flatMap(({ crew, staffing, windows }) =>
        windows.map((each) => [
          crew,
          names.crews[crew],
          staffing,
          each.window,
          each.hours,
          each.shifts,
          each.days,
          each.open === undefined ? undefined : each.open ? 'yes' : 'no',
        ]),
      ),
    ),
  };
}

export function wagesTable(document: PlannedDocument): Table {
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'crew', kind: 'text' },
      { head: 'attended', kind: 'hours' },
      { head: 'wages', kind: 'money' },
    ],
    rows: rowsByMonth(document, (month) => month.crews.map(({ crew, hours, wages }) => [crew, hours, wages])),
  };
}

export function energyTable(document: PlannedDocument): Table {
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'window', kind: 'text' },
      { head: 'energy', kind: 'energy' },
      { head: 'power price', kind: 'money by energy' },
      { head: 'average load', kind: 'load' },
      { head: 'attended', kind: 'share' },
    ],
    rows: rowsByMonth(document, (month) =>
      month.energy.windows.map((each) => [
        each.window,
        each.energy,
        each.powerPrice,
        each.averageLoad,
        each.attendedShare,
      ]),
    ),
  };
}

export function peaksTable(document: PlannedDocument): Table {
  return {
    columns: [
      { head: 'month', kind: 'text' },
      { head: 'energy', kind: 'energy' },
      { head: 'peak', kind: 'load' },
      { head: 'set by window', kind: 'text' },
    ],
    rows: rowsByMonth(document, ({ energy }) => [[energy.total, energy.peak, energy.peakWindow]]),
  };
}
