import type { CrewUse, Plan, PlanMonth } from '../planning/plan.js';
import type { Plant } from '../plant/plant.js';

/** A plan summed over its months, by noun. Limits are the months' limits added up. */
export interface PlanTotal {
  readonly received: number;
  readonly receipts: readonly {
    readonly feed: string;
    readonly material: string;
    readonly mass: number;
    readonly committed: number;
    readonly available: number;
    readonly income: number;
  }[];
  readonly steps: readonly {
    readonly step: string;
    readonly machine: string;
    readonly input: string;
    readonly mass: number;
    readonly hours: number;
  }[];
  readonly machines: readonly {
    readonly machine: string;
    readonly hours: number;
    readonly available: number;
  }[];
  readonly crews: readonly CrewTotal[];
  readonly sales: readonly {
    readonly outlet: string;
    readonly material: string;
    readonly mass: number;
    readonly receipts: number;
  }[];
  readonly contracts: readonly ContractTotal[];
  readonly disposals: readonly {
    readonly disposal: string;
    readonly material: string;
    readonly mass: number;
    readonly cost: number;
  }[];
  /** kWh */
  readonly energy: number;
}

export interface CrewTotal {
  readonly crew: string;
  readonly staffing: CrewUse['staffing'];
  readonly hours: number;
  readonly wages: number;
  /** Where staffed by the shift. */
  readonly shifts?: number;
}

/** Over the months in which the contract is in force. */
export interface ContractTotal {
  readonly contract: string;
  readonly buyer: string;
  readonly delivered: number;
  readonly min: number;
  readonly missed: number;
  readonly shortfallCharge: number;
  readonly missedTerm: number;
  readonly termCharge: number;
  /** What of the term's minimum falls on the horizon, and what its maximum leaves. */
  readonly termMin?: number;
  readonly termMax?: number;
  readonly receipts: number;
}

/** Sums the months of a plan. */
export function planTotal(plant: Pick<Plant, 'contracts'>, plan: Pick<Plan, 'months'>): PlanTotal {
  const { months } = plan;
  const receipts = totals(
    months.flatMap((month) => month.receipts),
    (each) => each.feed,
    ['mass', 'committed', 'available', 'income'],
  );
  return {
    received: receipts.reduce((sum, each) => sum + each.mass, 0),
    receipts,
    steps: totals(months.flatMap(stepMasses), (each) => each.step, ['mass', 'hours']),
    machines: totals(months.flatMap(machineHours), (each) => each.machine, ['hours', 'available']),
    crews: totals(months.flatMap(crewShifts), (each) => each.crew, ['hours', 'wages', 'shifts']),
    sales: totals(months.flatMap(outletSales), (each) => each.outlet, ['mass', 'receipts']),
    contracts: totals(
      months.flatMap((month) => contractMonths(plant, month)),
      (each) => each.contract,
      ['delivered', 'min', 'missed', 'shortfallCharge', 'missedTerm', 'termCharge', 'receipts'],
    ),
    disposals: totals(
      months.flatMap((month) => month.disposals),
      (each) => JSON.stringify([each.disposal, each.material]),
      ['mass', 'cost'],
    ),
    energy: months.reduce((sum, month) => sum + month.energy.total, 0),
  };
}

function stepMasses(month: PlanMonth): PlanTotal['steps'] {
  return month.steps.map(({ step, machine, input, mass, hours }) => ({ step, machine, input, mass, hours }));
}

function machineHours(month: PlanMonth): PlanTotal['machines'] {
  return month.machines.map(({ machine, hours, available }) => ({ machine, hours, available }));
}

function crewShifts(month: PlanMonth): CrewTotal[] {
  return month.crews.map(({ crew, staffing, hours, wages, windows }) => ({
    crew,
    staffing,
    hours,
    wages,
    ...(staffing === 'by the shift'
      ? { shifts: windows.reduce((sum, window) => sum + (window.shifts ?? 0), 0) }
      : {}),
  }));
}

function outletSales(month: PlanMonth): PlanTotal['sales'] {
  return month.sales.map(({ outlet, material, mass, receipts }) => ({ outlet, material, mass, receipts }));
}

function contractMonths(plant: Pick<Plant, 'contracts'>, month: PlanMonth): ContractTotal[] {
  return month.contracts.map((each) => ({
    contract: each.contract,
    buyer: each.buyer,
    delivered: each.delivered,
    min: each.min,
    missed: each.missed,
    shortfallCharge: each.shortfallCharge,
    missedTerm: each.missedTerm,
    termCharge: each.termCharge,
    ...termOf(plant, each.contract),
    receipts: each.receipts,
  }));
}

function termOf(plant: Pick<Plant, 'contracts'>, id: string): Pick<ContractTotal, 'termMin' | 'termMax'> {
  const contract = plant.contracts.find((each) => each.id === id);
  return {
    ...(contract?.termMin === undefined ? {} : { termMin: contract.termMin }),
    ...(contract?.termMax === undefined ? {} : { termMax: contract.termMax }),
  };
}

/** Adds the figures named by `keys` over the entries of one noun, in the order in which the nouns first appear. */
function totals<T extends object, K extends keyof T>(
  entries: readonly T[],
  nounOf: (entry: T) => string,
  keys: readonly K[],
): T[] {
  const byNoun = new Map<string, T>();
  for (const entry of entries) {
    const noun = nounOf(entry);
    const before = byNoun.get(noun);
    byNoun.set(noun, before === undefined ? entry : { ...before, ...added(before, entry, keys) });
  }
  return [...byNoun.values()];
}

function added<T, K extends keyof T>(before: T, entry: T, keys: readonly K[]): Partial<T> {
  const sums: Partial<T> = {};
  for (const key of keys) {
    const [a, b] = [before[key], entry[key]];
    if (typeof a === 'number' && typeof b === 'number') sums[key] = (a + b) as T[K];
  }
  return sums;
}
