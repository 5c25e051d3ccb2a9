import type { PlanMonth } from '../planning/plan.js';
import { formatKind, formatMoney, type ReportUnits } from './figure.js';
import { grouped } from './grouped.js';
import { ladderFigures } from './ladder-figures.js';
import type { PlannedDocument } from './plan-document.js';

/** Share of a limit from which it counts as used up. */
const USED_UP = 1 - 1e-6;
/** Share of a limit below which nothing of it counts as used. */
const UNUSED = 1e-6;
const MOST_NAMES = 4;

/**
 * The plan in a few sentences: where the money is earned, what limits it, what was left alone, what is promised.
 *
 * @param month index of a month; undefined: all of them together
 */
export function planSentences(document: PlannedDocument, month: number | undefined): string[] {
  const months = month === undefined ? document.months : [document.months[month]];
  return [
    ...earned(document, month),
    limiting(document, months),
    `${taken(document, months)} ${promised(document, months)}`,
    ...held(document, months),
  ];
}

function earned(document: PlannedDocument, month: number | undefined): string[] {
  const { units } = document;
  const { rungs, tires } = ladderFigures(document, month);
  if (rungs.length === 0) return ['No whole tire is worked on.'];
  const most = rungs.reduce((best, rung) => (rung.net > best.net ? rung : best));
  const dearest = rungs.reduce((best, rung) => (rung.net / rung.tires > best.net / best.tires ? rung : best));
  const of = `${mass(most.tires, units)} of ${mass(tires, units)} of whole tire`;
  const first = `Most is earned as ${most.name}: ${of} stop there and bring ${formatMoney(most.net, units.currency)}.`;
  if (dearest === most) return [first];
  return [
    `${first} By ${units.mass}, ${dearest.name} brings most: ${each(dearest.net / dearest.tires, units)}.`,
  ];
}

function limiting({ names }: PlannedDocument, months: readonly PlanMonth[]): string {
  const windows = new Map<string, Set<string>>();
  for (const { machines } of months) {
    for (const { machine, windows: parts } of machines) {
      for (const { window, hours, available } of parts) {
        if (available <= 0 || hours < USED_UP * available) continue;
        windows.set(machine, (windows.get(machine) ?? new Set()).add(window));
      }
    }
  }
  if (windows.size === 0)
    return 'No machine is at the end of its hours: prices, feeds and promises set the plan.';
  const said = [...windows].map(
    ([machine, when]) =>
      `${names.machines[machine]} (${[...when].map((id) => names.windows[id]).join(', ')})`,
  );
  return `At the end of their hours${months.length > 1 ? ' in at least one month' : ''}: ${listed(said)}.`;
}

function taken({ names, units }: PlannedDocument, months: readonly PlanMonth[]): string {
  const left = new Map<string, number>();
  for (const { receipts } of months) {
    for (const { feed, mass: received, available } of receipts) {
      if (available - received > UNUSED * available)
        left.set(feed, (left.get(feed) ?? 0) + available - received);
    }
  }
  if (left.size === 0) return 'Every feed is taken in full.';
  const said = [...left].map(([feed, amount]) => `${mass(amount, units)} of ${names.feeds[feed]}`);
  return `Not taken, although it could be had: ${listed(said)}.`;
}

function promised({ names, units }: PlannedDocument, months: readonly PlanMonth[]): string {
  const entries = months.flatMap(({ contracts }) => contracts);
  if (entries.length === 0) return 'No contract is in force.';
  const missed = new Map<string, { mass: number; charge: number }>();
  for (const each of entries) {
    const { mass: before = 0, charge = 0 } = missed.get(each.contract) ?? {};
    missed.set(each.contract, {
      mass: before + each.missed + each.missedTerm,
      charge: charge + each.shortfallCharge + each.termCharge,
    });
  }
  const short = [...missed].filter(([, each]) => Number(each.mass.toFixed(1)) > 0);
  if (short.length === 0) {
    return missed.size === 1
      ? 'The one contract in force is met.'
      : `All ${missed.size} contracts in force are met.`;
  }
  const said = short.map(
    ([contract, each]) =>
      `${names.contracts[contract]} by ${mass(each.mass, units)} at a charge of ${formatMoney(each.charge, units.currency)}`,
  );
  return `Missed, because that costs less than to deliver or cannot be helped: ${listed(said)}.`;
}

function held({ names, units }: PlannedDocument, months: readonly PlanMonth[]): string[] {
  const full = months.flatMap(({ month, stores, stocks }) => [
    ...stores
      .filter((each) => each.capacity > 0 && each.mass >= USED_UP * each.capacity)
      .map((each) => ({ name: names.stores[each.store], month })),
    ...stocks
      .filter(
        ({ capacity, closing }) => capacity !== undefined && capacity > 0 && closing >= USED_UP * capacity,
      )
      .map((each) => ({ name: names.materials[each.material], month })),
  ]);
  if (full.length === 0) return [];
  const byName = grouped(full, ({ name }) => name);
  const said = [...byName].map(([name, when]) =>
    months.length === 1 ? name : `${name} (${when.length} of ${months.length} month ends)`,
  );
  return [`Full to its limit in ${units.mass} at the month's end: ${listed(said)}.`];
}

function mass(amount: number, units: ReportUnits): string {
  return `${formatKind(amount, 'mass', units)} ${units.mass}`;
}

function each(amount: number, units: ReportUnits): string {
  return `${formatKind(amount, 'money by mass', units)} ${units.currency}/${units.mass}`;
}

function listed(names: readonly string[]): string {
  const few = names.slice(0, MOST_NAMES).join('; ');
  return names.length > MOST_NAMES ? `${few}; and ${names.length - MOST_NAMES} more` : few;
}
