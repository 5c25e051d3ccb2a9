import type { Month } from '../calendar/month.js';

/**
 * The plant as the planner sees it: every series spread over the months, every rate in currency per mass
 * unit of the scenario, every share and hour derived. Lists are in the order of ids. Arrays by month have
 * one figure a month; a missing limit is Infinity.
 */
export interface Plant {
  readonly title: string;
  readonly units: { readonly mass: 'tonne' | 'short ton'; readonly currency: string };
  readonly months: readonly Month[];
  /** A year, effective. */
  readonly discountRate: number;
  readonly windows: readonly PlantWindow[];
  readonly demand?: PlantDemand;
  readonly materials: readonly PlantMaterial[];
  readonly stores: readonly {
    readonly id: string;
    readonly name: string;
    readonly materials: readonly string[];
    readonly capacity: number;
  }[];
  readonly feeds: readonly PlantFeed[];
  readonly crews: readonly PlantCrew[];
  readonly machines: readonly PlantMachine[];
  readonly steps: readonly PlantStep[];
  readonly outlets: readonly PlantOutlet[];
  readonly contracts: readonly PlantContract[];
  readonly disposals: readonly PlantDisposal[];
  /** Currency by month. */
  readonly fixedCosts: readonly { readonly name: string; readonly perMonth: ByMonth }[];
  /** What a unit of each kind of limit weighs when it gives way, where the scenario says so. */
  readonly repairWeights?: Readonly<Partial<Record<RepairKind, number>>>;
  /** Figures that the scenario takes from the table of published figures, in the order of materials. */
  readonly starterFigures: readonly {
    readonly material: string;
    readonly field: 'assay' | 'tireMass' | 'heatingValue';
    readonly id: string;
    readonly source: string;
    readonly status: 'read' | 'from memory' | 'invented';
  }[];
}

export type ByMonth = readonly number[];

/** Kinds of limits and promises that a repair may take from. */
export type RepairKind =
  | 'contractMinimum'
  | 'contractCall'
  | 'termMinimum'
  | 'contractMaximum'
  | 'termMaximum'
  | 'quality'
  | 'feedCommitted'
  | 'feedAvailable'
  | 'outletTier'
  | 'closingStock'
  | 'stockMinimum'
  | 'stockCapacity'
  | 'store'
  | 'disposalLimit'
  | 'machineHours'
  | 'crewHours';

export interface PlantWindow {
  readonly id: string;
  readonly name: string;
  /** Hours of one occurrence. */
  readonly length: number;
  /** Days on which it begins, closed dates left out. */
  readonly days: ByMonth;
  /** days × length */
  readonly hours: ByMonth;
  /** Currency per kWh. */
  readonly powerPrice: ByMonth;
  readonly wageFactor: number;
}

export interface PlantDemand {
  /** Currency per kW of the month's peak. */
  readonly charge: ByMonth;
  readonly basis: 'average' | 'connected';
  readonly peakToAverage: number;
  /** kW */
  readonly baseLoad: number;
}

export type Form =
  | 'whole'
  | 'shred'
  | 'chip'
  | 'wire-free'
  | 'granulate'
  | 'powder'
  | 'steel'
  | 'fiber'
  | 'residue'
  | 'other';

export interface PlantMaterial {
  readonly id: string;
  readonly name: string;
  readonly form: Form;
  /** kg */
  readonly tireMass?: number;
  /** MJ/kg, lower */
  readonly heatingValue?: number;
  /** Shares by mass, stated or derived. */
  readonly assay: Readonly<Record<string, number>>;
  readonly stock?: PlantStock;
}

export interface PlantStock {
  readonly capacity: ByMonth;
  readonly min: ByMonth;
  readonly opening: number;
  readonly closingMin: number;
  /** Currency per mass unit. */
  readonly closingValue: number;
  /** Currency per mass unit of a month's closing stock. */
  readonly holdingCost: ByMonth;
}

export interface PlantFeed {
  readonly id: string;
  readonly name: string;
  readonly material: string;
  /** Currency per mass unit, of what is not committed. */
  readonly fee: ByMonth;
  readonly committedFee: ByMonth;
  readonly haulage: ByMonth;
  readonly committed: ByMonth;
  /** What can be had beyond the committed, at this fee. */
  readonly others: ByMonth;
  /** Whether `others` follow the fee. */
  readonly responds: boolean;
  readonly paymentDays: number;
}

export interface PlantCrew {
  readonly id: string;
  readonly name: string;
  readonly people: number;
  /** Currency per person-hour. */
  readonly wage: ByMonth;
  readonly staffing: 'hourly' | 'by the shift' | 'by the month';
}

export interface PlantMachine {
  readonly id: string;
  readonly name: string;
  readonly count: number;
  readonly availability: ByMonth;
  readonly crew?: string;
  /** Machine-hours by window (in the order of `windows`), then month. */
  readonly available: readonly ByMonth[];
}

export interface PlantStep {
  readonly id: string;
  readonly name: string;
  readonly machine: string;
  readonly input: string;
  /** Net input mass per machine-hour. */
  readonly throughput: ByMonth;
  /** kWh per mass unit of input, all passes. */
  readonly energy: ByMonth;
  /** Currency per mass unit of input, all passes. */
  readonly wear: ByMonth;
  /** Passes through the machine for each tonne of input; 1 without a circuit. */
  readonly passes: number;
  /** Output mass by input mass, in the order of ids; they add up to 1. */
  readonly yields: readonly {
    readonly material: string;
    readonly share: number;
    /** What this step makes it of, where the step says so: shares by mass. */
    readonly assay?: Readonly<Record<string, number>>;
  }[];
}

export interface PlantOutlet {
  readonly id: string;
  readonly name: string;
  readonly material: string;
  /** Share of each month in force. */
  readonly inForce: ByMonth;
  /** Widths are those of the part in force. */
  readonly tiers: readonly { readonly width: ByMonth; readonly price: ByMonth }[];
  readonly freight: ByMonth;
  readonly packing: ByMonth;
  readonly paymentDays: number;
}

export interface PlantContract {
  readonly id: string;
  readonly name: string;
  readonly buyer: string;
  readonly materials: readonly string[];
  /** Share of each month in force. */
  readonly inForce: ByMonth;
  /** The last month of the horizon in which it is in force; undefined where there is none. */
  readonly lastMonth?: number;
  /** Currency per mass unit, by material, then month. */
  readonly price: Readonly<Record<string, ByMonth>>;
  readonly freight: Readonly<Record<string, ByMonth>>;
  readonly packing: Readonly<Record<string, ByMonth>>;
  /** Mass of the part in force: minimum 0 where there is none. */
  readonly monthlyMin: ByMonth;
  readonly monthlyMax: ByMonth;
  /** The buyer's expected call of the part in force. */
  readonly expected?: ByMonth;
  /** What falls on this horizon, less what was delivered; absent where there is none. */
  readonly termMin?: number;
  readonly termMax?: number;
  /** Currency per mass unit missed; absent: minimums are hard. */
  readonly shortfall?: { readonly charge: ByMonth; readonly termCharge: number };
  readonly quality: readonly {
    readonly measure: string;
    readonly min?: number;
    readonly max?: number;
    /** The measure of each material of the contract. */
    readonly values: Readonly<Record<string, number>>;
  }[];
  readonly paymentDays: number;
}

export interface PlantDisposal {
  readonly id: string;
  readonly name: string;
  readonly materials: readonly string[];
  /** Currency per mass unit, by material, then month. */
  readonly charge: Readonly<Record<string, ByMonth>>;
  readonly haulage: Readonly<Record<string, ByMonth>>;
  readonly limit: ByMonth;
}
