import type { Certificate } from '../program/certificate.js';
import type { ColumnKey, RowKey } from './keys.js';

/**
 * The plan that the planner chose, in the user's nouns. Masses in the scenario's mass unit, money in its
 * currency (nominal, at the month's end, unless it says present value), hours, kWh, kW.
 */
export interface Plan {
  readonly months: readonly PlanMonth[];
  readonly statement: Statement;
  readonly cash: readonly CashMonth[];
  readonly worth: readonly MaterialWorth[];
  readonly massBalance: MassBalance;
  readonly ladder: Ladder;
  readonly certificate: Certificate<RowKey, ColumnKey>;
}

export interface PlanMonth {
  readonly month: string;
  readonly receipts: readonly {
    readonly feed: string;
    readonly material: string;
    readonly mass: number;
    readonly committed: number;
    readonly available: number;
    readonly income: number;
  }[];
  readonly steps: readonly StepUse[];
  readonly machines: readonly MachineUse[];
  readonly crews: readonly CrewUse[];
  readonly stocks: readonly {
    readonly material: string;
    readonly opening: number;
    readonly closing: number;
    readonly min: number;
    readonly capacity?: number;
  }[];
  readonly stores: readonly { readonly store: string; readonly mass: number; readonly capacity: number }[];
  readonly sales: readonly OutletSales[];
  readonly contracts: readonly ContractMonth[];
  readonly disposals: readonly {
    readonly disposal: string;
    readonly material: string;
    readonly mass: number;
    readonly cost: number;
  }[];
  readonly energy: {
    readonly total: number;
    readonly windows: readonly WindowEnergy[];
    readonly peak?: number;
    readonly peakWindow?: string;
  };
}

export interface StepUse {
  readonly step: string;
  readonly machine: string;
  readonly input: string;
  readonly mass: number;
  readonly hours: number;
  readonly windows: readonly { readonly window: string; readonly mass: number; readonly hours: number }[];
  readonly outputs: readonly { readonly material: string; readonly mass: number }[];
}

export interface MachineUse {
  readonly machine: string;
  readonly hours: number;
  readonly available: number;
  readonly windows: readonly {
    readonly window: string;
    readonly hours: number;
    readonly available: number;
  }[];
}

export interface CrewUse {
  readonly crew: string;
  readonly staffing: 'hourly' | 'by the shift' | 'by the month';
  readonly hours: number;
  readonly wages: number;
  /** `shifts` where staffed by the shift, `open` where by the month. */
  readonly windows: readonly {
    readonly window: string;
    readonly hours: number;
    readonly shifts?: number;
    readonly days?: number;
    readonly open?: boolean;
  }[];
}

export interface OutletSales {
  readonly outlet: string;
  readonly material: string;
  readonly mass: number;
  readonly receipts: number;
  /** `width` is absent where nothing limits the tier. */
  readonly tiers: readonly { readonly mass: number; readonly width?: number; readonly price: number }[];
}

export interface ContractMonth {
  readonly contract: string;
  readonly buyer: string;
  readonly delivered: number;
  readonly min: number;
  readonly max?: number;
  /** The buyer's expected call. */
  readonly expected?: number;
  readonly missed: number;
  readonly shortfallCharge: number;
  readonly missedTerm: number;
  readonly termCharge: number;
  readonly receipts: number;
  readonly materials: readonly { readonly material: string; readonly mass: number; readonly price: number }[];
}

export interface WindowEnergy {
  readonly window: string;
  readonly energy: number;
  readonly powerPrice: number;
  /** kW on average over the window's hours. */
  readonly averageLoad: number;
  /** Attended hours over the window's hours, the most of any crew; absent without crews. */
  readonly attendedShare?: number;
}

export const STATEMENT_LINES = [
  'tipping fees',
  'sales',
  'contract receipts',
  'change in stock value',
  'haulage',
  'freight',
  'packing',
  'power',
  'demand charge',
  'wages',
  'wear',
  'disposal',
  'holding',
  'shortfall charges',
  'fixed costs',
] as const;

export type StatementLine = (typeof STATEMENT_LINES)[number];

/** Money by line: receipts positive, costs negative. */
export interface Statement {
  readonly lines: readonly {
    readonly line: StatementLine;
    readonly byMonth: readonly number[];
    readonly total: number;
    readonly presentValue: number;
  }[];
  /** Margin of each month. */
  readonly byMonth: readonly number[];
  /** The plain sum. */
  readonly margin: number;
  readonly presentValue: number;
  /** S: Σ of the lines' absolute present values; what gaps are relative to. */
  readonly scale: number;
}

/** Money when it is paid. The last entry has no month: what is received after the horizon. */
export interface CashMonth {
  readonly month?: string;
  readonly receipts: number;
  readonly payments: number;
  /** Of the month. */
  readonly net: number;
  /** Since the start. */
  readonly balance: number;
}

export interface MaterialWorth {
  readonly material: string;
  /** Money of each month's end, by mass. */
  readonly byMonth: readonly number[];
  readonly presentValue: readonly number[];
}

export interface MassBalance {
  readonly in: number;
  readonly out: number;
  readonly stockChange: number;
  /** in − out − stockChange */
  readonly residual: number;
  readonly materials: readonly MaterialBalance[];
}

export interface MaterialBalance {
  readonly material: string;
  readonly received: number;
  readonly made: number;
  readonly used: number;
  readonly sold: number;
  readonly delivered: number;
  readonly disposed: number;
  readonly opening: number;
  readonly closing: number;
  readonly residual: number;
}

/** Where tonnes of whole tire stop, and what one brings there; for the horizon and month by month. */
export interface Ladder {
  readonly total: readonly Rung[];
  readonly months: readonly (readonly Rung[])[];
  /** Margin less the rungs' net: by-products against their worth, stock, demand charge, fixed costs. [month] */
  readonly rest: readonly number[];
}

/** Money in total over the tonnes that stop here; divide by `tires` for what one tonne of whole tire brings. */
export interface Rung {
  readonly material: string;
  /** Mass that leaves the plant as this material. */
  readonly mass: number;
  /** Mass of whole tire that stops here. */
  readonly tires: number;
  /** Receipts less freight and packing (less the charge where it is landfilled). */
  readonly price: number;
  /** Tipping fees less haulage. */
  readonly tippingFee: number;
  /** Steel, fiber and the rest split off on the way, at their worth in the plan. */
  readonly byProducts: number;
  /** Power, wear and wages on the way. */
  readonly cost: number;
  /** price + tippingFee + byProducts − cost */
  readonly net: number;
}
