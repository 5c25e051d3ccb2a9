import { discountFactor } from '../../planning/discount.js';
import type { Formulation } from '../../planning/formulate.js';
import { worthOf } from '../../planning/read/worth.js';
import type { Plant } from '../../plant/plant.js';
import type { SolvedProgram } from '../plan-answer.js';
import type { StepAccount, WorthAccount } from './explanation.js';

/** The worth of every material by month, money of each month's end. */
export function worthAccounts({ formulation, rowDual }: SolvedProgram): WorthAccount[] {
  return worthOf(formulation.plant, formulation.program, rowDual).map(({ material, byMonth }) => ({
    material,
    byMonth,
  }));
}

/**
 * The account of a mass unit of input of every step, in every window with hours of every month:
 *
 *     gain = Σ yield·worth(out) − worth(in) − energy·powerPrice − wear
 *            − (rent of machine hours + rent of crew hours / (count·availability)) / throughput
 *            − peakToAverage·energy/hours · rent of the peak                (currency by mass)
 */
export function stepAccounts(solved: SolvedProgram): StepAccount[] {
  const { plant, columns } = solved.formulation;
  const prices = pricesOf(solved.formulation, solved.rowDual);
  return plant.steps.flatMap((step, k) =>
    plant.months.flatMap(({ index: month }) =>
      plant.windows.flatMap((window, w) => {
        if (window.hours[month] === 0) return [];
        const mass = solved.primal[columns.run[k][w][month]];
        return [{ step: step.id, month, window: window.id, mass, ...terms(plant, prices, k, w, month) }];
      }),
    ),
  );
}

type Terms = Omit<StepAccount, 'step' | 'month' | 'window' | 'mass'>;

function terms(plant: Plant, prices: Prices, k: number, w: number, month: number): Terms {
  const step = plant.steps[k];
  const window = plant.windows[w];
  const machine = plant.machines.find(({ id }) => id === step.machine);
  const throughput = step.throughput[month];
  const atOnce = machine === undefined ? 0 : machine.count * machine.availability[month];
  const worthOut = step.yields.reduce(
    (sum, { material, share }) => sum + share * prices.worth(material, month),
    0,
  );
  const worthIn = prices.worth(step.input, month);
  const power = step.energy[month] * window.powerPrice[month];
  const wear = step.wear[month];
  const hours = prices.machine(step.machine, window.id, month) / throughput;
  const crew =
    machine?.crew === undefined || atOnce === 0
      ? 0
      : prices.crew(step.machine, window.id, month) / atOnce / throughput;
  const average = plant.demand?.basis === 'average' ? plant.demand.peakToAverage : 0;
  const peak = ((average * step.energy[month]) / window.hours[month]) * prices.peak(window.id, month);
  const gain = worthOut - worthIn - power - wear - hours - crew - peak;
  return { worthOut, worthIn, power, wear, machine: hours, crew, peak, gain };
}

/** Duals in money of their month. */
interface Prices {
  worth(material: string, month: number): number;
  machine(machine: string, window: string, month: number): number;
  crew(machine: string, window: string, month: number): number;
  peak(window: string, month: number): number;
}

function pricesOf({ plant, program }: Formulation, rowDual: Float64Array): Prices {
  const tables = {
    balance: new Map<string, number>(),
    machine: new Map<string, number>(),
    crew: new Map<string, number>(),
    peak: new Map<string, number>(),
  };
  program.rowKeys.forEach((key, row) => {
    const price = 'month' in key ? rowDual[row] / discountFactor(plant, key.month) : 0;
    if (key.kind === 'balance') tables.balance.set(entry(key.material, key.month), price);
    if (key.kind === 'machine') tables.machine.set(entry(key.machine, key.window, key.month), price);
    if (key.kind === 'crew') tables.crew.set(entry(key.machine, key.window, key.month), price);
    if (key.kind === 'peak') tables.peak.set(entry(key.window, key.month), price);
  });
  return {
    worth: (...place) => tables.balance.get(entry(...place)) ?? 0,
    machine: (...place) => tables.machine.get(entry(...place)) ?? 0,
    crew: (...place) => tables.crew.get(entry(...place)) ?? 0,
    peak: (...place) => tables.peak.get(entry(...place)) ?? 0,
  };
}

/** A name for a place in a table of this file; never read back. */
function entry(...parts: readonly (string | number)[]): string {
  return JSON.stringify(parts);
}
