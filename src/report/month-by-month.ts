import type { PlanMonth } from '../planning/plan.js';
import type { FigureKind } from './figure.js';
import { type MonthRow, printMonthBlocks } from './month-blocks.js';
import type { PlannedDocument } from './plan-document.js';
import { shareOf, sumOf } from './sum.js';

/** The months beside each other: money, tonnes, hours, shifts. */
export function printMonthByMonth(document: PlannedDocument): string {
  const labels = document.months.map((month) => month.month);
  const print = (title: string, rows: readonly MonthRow[], kind: FigureKind, sums = 0) =>
    printMonthBlocks(title, labels, rows, kind, document.units, sums);
  return [
    print('Statement by month', statementRows(document), 'money', 1),
    print('Whole tire by the rung where it stops', rungRows(document), 'mass', 1),
    print('Received', receivedRows(document), 'mass'),
    print('Into steps', stepRows(document), 'mass'),
    print('Use of machine hours', useRows(document), 'share'),
    print('Shifts to call', shiftRows(document), 'count'),
    print('Sold', soldRows(document), 'mass'),
    print(
      'Delivered',
      contractRows(document, (each) => each.delivered),
      'mass',
    ),
    print('Missed', missedRows(document), 'mass'),
    print('Waste', wasteRows(document), 'mass'),
    print('Closing stock', stockRows(document), 'mass'),
    print('Energy', energyRows(document), 'energy'),
    print('Peak', peakRows(document), 'load'),
    print(
      `Worth of one more ${document.units.mass}, at each month's end`,
      worthRows(document),
      'money by mass',
    ),
  ].join('');
}

function statementRows({ statement }: PlannedDocument): MonthRow[] {
  return [
    ...statement.lines
      .filter((each) => each.byMonth.some((amount) => amount !== 0))
      .map((each) => ({ name: each.line, values: each.byMonth, total: each.total })),
    { name: 'margin', values: statement.byMonth, total: statement.margin },
  ];
}

function rungRows({ ladder, names }: PlannedDocument): MonthRow[] {
  const rungs = ladder.total.map(({ material, tires }) => ({
    name: names.materials[material],
    values: ladder.months.map((month) => month.find((rung) => rung.material === material)?.tires ?? 0),
    total: tires,
  }));
  const months = ladder.months.map((month) => sumOf(month, (rung) => rung.tires));
  return [...rungs, { name: 'all', values: months, total: sumOf(ladder.total, (rung) => rung.tires) }];
}

function receivedRows({ months, total, names }: PlannedDocument): MonthRow[] {
  return total.receipts.map(({ feed, mass }) => ({
    name: names.feeds[feed],
    values: months.map((month) => month.receipts.find((each) => each.feed === feed)?.mass),
    total: mass,
  }));
}

function stepRows({ months, total, names }: PlannedDocument): MonthRow[] {
  return total.steps.map(({ step, mass }) => ({
    name: names.steps[step],
    values: months.map((month) => month.steps.find((each) => each.step === step)?.mass),
    total: mass,
  }));
}

function useRows({ months, total, names }: PlannedDocument): MonthRow[] {
  return total.machines.map(({ machine, hours, available }) => ({
    name: names.machines[machine],
    values: months.map((month) => {
      const use = month.machines.find((each) => each.machine === machine);
      return use === undefined ? undefined : shareOf(use.hours, use.available);
    }),
    total: shareOf(hours, available),
  }));
}

function shiftRows({ months, total, names }: PlannedDocument): MonthRow[] {
  return total.crews
    .filter((crew) => crew.shifts !== undefined)
    .flatMap(({ crew }) =>
      Object.keys(names.windows).map((window) => {
        const values = months.map(
          (month) =>
            month.crews.find((each) => each.crew === crew)?.windows.find((each) => each.window === window)
              ?.shifts,
        );
        const name = `${names.crews[crew]}, ${names.windows[window]}`;
        return { name, values, total: sumOf(values, (shifts) => shifts ?? 0) };
      }),
    );
}

function soldRows({ months, total, names }: PlannedDocument): MonthRow[] {
  return total.sales.map(({ outlet, mass }) => ({
    name: names.outlets[outlet],
    values: months.map((month) => month.sales.find((each) => each.outlet === outlet)?.mass),
    total: mass,
  }));
}

function contractRows(
  { months, total, names }: PlannedDocument,
  massOf: (contract: PlanMonth['contracts'][number]) => number,
): MonthRow[] {
  return total.contracts.map(({ contract }) => {
    const values = months.map((month) => {
      const each = month.contracts.find((entry) => entry.contract === contract);
      return each === undefined ? undefined : massOf(each);
    });
    return { name: names.contracts[contract], values, total: sumOf(values, (mass) => mass ?? 0) };
  });
}

function missedRows(document: PlannedDocument): MonthRow[] {
  const missed = contractRows(document, (each) => each.missed + each.missedTerm);
  return missed.filter((row) => row.values.some((mass) => mass !== undefined && mass !== 0));
}

function wasteRows({ months, total, names }: PlannedDocument): MonthRow[] {
  return total.disposals.map(({ disposal, material, mass }) => ({
    name: `${names.materials[material]}, ${names.disposals[disposal]}`,
    values: months.map(
      (month) =>
        month.disposals.find((each) => each.disposal === disposal && each.material === material)?.mass,
    ),
    total: mass,
  }));
}

function stockRows({ months, names }: PlannedDocument): MonthRow[] {
  return months[0].stocks.map(({ material }) => ({
    name: names.materials[material],
    values: months.map((month) => month.stocks.find((each) => each.material === material)?.closing),
  }));
}

function energyRows({ months, total }: PlannedDocument): MonthRow[] {
  return [{ name: 'all steps', values: months.map((month) => month.energy.total), total: total.energy }];
}

function peakRows({ months }: PlannedDocument): MonthRow[] {
  const values = months.map((month) => month.energy.peak);
  return values.some((peak) => peak !== undefined) ? [{ name: 'for the demand charge', values }] : [];
}

function worthRows({ worth, names }: PlannedDocument): MonthRow[] {
  return worth.map(({ material, byMonth }) => ({ name: names.materials[material], values: byMonth }));
}
