import type { Plant } from '../../plant/plant.js';
import type { ContractMonth, CrewUse, MachineUse, OutletSales, PlanMonth, StepUse } from '../plan.js';
import type { Amounts } from './amounts.js';
import { energyOf } from './energy.js';

/** The plan of each month, by noun. */
export function monthsOfPlan(plant: Plant, amounts: Amounts): PlanMonth[] {
  return plant.months.map(({ index, label }) => ({
    month: label,
    receipts: plant.feeds.map((feed, f) => receiptOf(feed, amounts.receive[f][index], index)),
    steps: plant.steps.map((_, k) => stepUse(plant, amounts, k, index)),
    machines: plant.machines.map((_, r) => machineUse(plant, amounts, r, index)),
    crews: plant.crews.map((_, c) => crewUse(plant, amounts, c, index)),
    stocks: plant.materials.flatMap((_, m) => stockOf(plant, amounts, m, index)),
    stores: plant.stores.map((store) => ({
      store: store.id,
      mass: sum(
        plant.materials.map(({ id }, m) => (store.materials.includes(id) ? amounts.stock[m][index] : 0)),
      ),
      capacity: store.capacity,
    })),
    sales: plant.outlets.map((_, o) => outletSales(plant, amounts, o, index)),
    contracts: plant.contracts.flatMap((_, c) => contractMonth(plant, amounts, c, index)),
    disposals: plant.disposals.flatMap((disposal, d) =>
      disposal.materials.map((material, m) => {
        const mass = amounts.dispose[d][m][index];
        const cost = mass * (disposal.charge[material][index] + disposal.haulage[material][index]);
        return { disposal: disposal.id, material, mass, cost };
      }),
    ),
    energy: energyOf(plant, amounts, index),
  }));
}

function receiptOf(feed: Plant['feeds'][number], mass: number, month: number): PlanMonth['receipts'][number] {
  const committed = feed.committed[month];
  const income = committed * feed.committedFee[month] + (mass - committed) * feed.fee[month];
  return {
    feed: feed.id,
    material: feed.material,
    mass,
    committed,
    available: committed + feed.others[month],
    income,
  };
}

function stepUse(plant: Plant, amounts: Amounts, k: number, month: number): StepUse {
  const step = plant.steps[k];
  const windows = plant.windows.map((window, w) => {
    const mass = amounts.run[k][w][month];
    return { window: window.id, mass, hours: mass / step.throughput[month] };
  });
  const mass = sum(windows.map((window) => window.mass));
  return {
    step: step.id,
    machine: step.machine,
    input: step.input,
    mass,
    hours: sum(windows.map((window) => window.hours)),
    windows,
    outputs: step.yields.map((output) => ({ material: output.material, mass: mass * output.share })),
  };
}

function machineUse(plant: Plant, amounts: Amounts, r: number, month: number): MachineUse {
  const machine = plant.machines[r];
  const windows = plant.windows.map((window, w) => ({
    window: window.id,
    hours: machineHours(plant, amounts, machine.id, w, month),
    available: machine.available[w][month],
  }));
  return {
    machine: machine.id,
    hours: sum(windows.map((window) => window.hours)),
    available: sum(windows.map((window) => window.available)),
    windows,
  };
}

/** Σ_k run / throughput of the machine's steps in a window, machine-hours. */
export function machineHours(
  plant: Plant,
  amounts: Amounts,
  machine: string,
  w: number,
  month: number,
): number {
  return sum(
    plant.steps.map((step, k) =>
      step.machine === machine ? amounts.run[k][w][month] / step.throughput[month] : 0,
    ),
  );
}

function crewUse(plant: Plant, amounts: Amounts, c: number, month: number): CrewUse {
  const crew = plant.crews[c];
  const windows = plant.windows.map((window, w) => ({
    window: window.id,
    hours: amounts.attended[c][w][month],
    ...(crew.staffing === 'by the shift'
      ? { shifts: amounts.shifts[c][w][month], days: window.days[month] }
      : {}),
    ...(crew.staffing === 'by the month' ? { open: amounts.open[c][w][month] === 1 } : {}),
  }));
  const wages = plant.windows.map(
    (window, w) => amounts.attended[c][w][month] * crew.people * crew.wage[month] * window.wageFactor,
  );
  return {
    crew: crew.id,
    staffing: crew.staffing,
    hours: sum(windows.map((each) => each.hours)),
    wages: sum(wages),
    windows,
  };
}

function stockOf(plant: Plant, amounts: Amounts, m: number, month: number): PlanMonth['stocks'] {
  const { id, stock } = plant.materials[m];
  if (stock === undefined) return [];
  const capacity = stock.capacity[month];
  return [
    {
      material: id,
      opening: month === 0 ? stock.opening : amounts.stock[m][month - 1],
      closing: amounts.stock[m][month],
      min:
        month === plant.months.length - 1 ? Math.max(stock.min[month], stock.closingMin) : stock.min[month],
      ...(Number.isFinite(capacity) ? { capacity } : {}),
    },
  ];
}

function outletSales(plant: Plant, amounts: Amounts, o: number, month: number): OutletSales {
  const outlet = plant.outlets[o];
  const tiers = outlet.tiers.map((tier, position) => ({
    mass: amounts.sell[o][position][month],
    ...(Number.isFinite(tier.width[month]) ? { width: tier.width[month] } : {}),
    price: tier.price[month],
  }));
  return {
    outlet: outlet.id,
    material: outlet.material,
    mass: sum(tiers.map((tier) => tier.mass)),
    receipts: sum(tiers.map((tier) => tier.mass * tier.price)),
    tiers,
  };
}

function contractMonth(plant: Plant, amounts: Amounts, c: number, month: number): ContractMonth[] {
  const contract = plant.contracts[c];
  if (contract.inForce[month] === 0) return [];
  const materials = contract.materials.map((material, m) => ({
    material,
    mass: amounts.deliver[c][m][month],
    price: contract.price[material][month],
  }));
  const missed = amounts.missed[c][month] ?? 0;
  const missedTerm = contract.lastMonth === month ? (amounts.missedTerm[c] ?? 0) : 0;
  const max = contract.monthlyMax[month];
  return [
    {
      contract: contract.id,
      buyer: contract.buyer,
      delivered: sum(materials.map((each) => each.mass)),
      min: contract.monthlyMin[month],
      ...(Number.isFinite(max) ? { max } : {}),
      ...(contract.expected === undefined ? {} : { expected: contract.expected[month] }),
      missed,
      shortfallCharge: missed * (contract.shortfall?.charge[month] ?? 0),
      missedTerm,
      termCharge: missedTerm * (contract.shortfall?.termCharge ?? 0),
      receipts: sum(materials.map((each) => each.mass * each.price)),
      materials,
    },
  ];
}

function sum(figures: readonly number[]): number {
  return figures.reduce((total, figure) => total + figure, 0);
}
