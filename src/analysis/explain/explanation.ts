import type { ColumnKey } from '../../planning/keys.js';
import type { LimitKey, LimitUnit } from '../limits/plan-limit.js';

/** Money of each month's end unless it says present value. Masses in the plant's unit. */
export interface Explanation {
  readonly worth: readonly WorthAccount[];
  readonly steps: readonly StepAccount[];
  /** Ranked by what the side that pays would bring over its range. */
  readonly rents: readonly Rent[];
  /** Limits that bind without a rent on either side. */
  readonly bindingWithoutRent: number;
  readonly rentsOverMonths: readonly RentOverMonths[];
  readonly wouldTake: readonly WouldTake[];
  readonly firmness: readonly Firmness[];
  /** With whole numbers only: all else is for the staffing of the plan, this is not. */
  readonly staffing?: StaffingChanges;
  /** Solves that the explanation took beside the plan's own. */
  readonly solves: number;
  /** Questions for which a solve did not certify; nothing is said of them. */
  readonly unanswered: number;
}

/** What one more mass unit of a material adds in each month, and what a mass unit of it may become. */
export interface WorthAccount {
  readonly material: string;
  readonly byMonth: readonly number[];
}

/**
 * One mass unit of input going through a step in a window of a month:
 * gain = worthOut − worthIn − power − wear − machine − crew − peak. Zero where the step runs freely, below zero
 * where it rests.
 */
export interface StepAccount {
  readonly step: string;
  readonly month: number;
  readonly window: string;
  /** Input in the plan. */
  readonly mass: number;
  /** Σ yield · worth */
  readonly worthOut: number;
  readonly worthIn: number;
  readonly power: number;
  readonly wear: number;
  /** Rent of the machine's hours / throughput. */
  readonly machine: number;
  /** Price of the crew's hours (wages and rent) / (count · availability) / throughput. */
  readonly crew: number;
  /** Its part in the month's peak load. */
  readonly peak: number;
  readonly gain: number;
}

/** How far a rent holds: right sides. Absent: for ever. */
export interface Rent {
  readonly limit: LimitKey;
  readonly unit: LimitUnit;
  readonly amount: number;
  /** (V(b + δ) − V(b)) / δ for δ → 0+, money of the month by unit; absent where no plan is feasible. */
  readonly oneMore?: number;
  /** (V(b) − V(b − δ)) / δ */
  readonly oneLess?: number;
  readonly holdsFrom?: number;
  readonly holdsTo?: number;
  /** Where one side has no plan: the limits and promises that then cannot all hold. */
  readonly conflict?: readonly LimitKey[];
  /** What the side that pays brings over its range. */
  readonly reach: number;
}

/** A unit more or less in every month at once, present value. */
export interface RentOverMonths {
  readonly limit: LimitKey;
  readonly unit: LimitUnit;
  readonly months: number;
  readonly oneMore?: number;
  readonly oneLess?: number;
  /** By how much it may fall and rise in every month while that holds; absent: for ever. */
  readonly holdsLess?: number;
  readonly holdsMore?: number;
}

export type WouldTakeKey =
  | { readonly kind: 'outlet'; readonly outlet: string; readonly tier: number; readonly month: number }
  | { readonly kind: 'feed'; readonly feed: string; readonly month: number }
  | { readonly kind: 'step'; readonly step: string; readonly month: number }
  | {
      readonly kind: 'contract';
      readonly contract: string;
      readonly material: string;
      readonly month: number;
    };

/** Something that the plan leaves alone or uses less than it could. */
export interface WouldTake {
  readonly what: WouldTakeKey;
  readonly used: number;
  /** Absent: no limit. */
  readonly could?: number;
  /** The price or fee now; absent for steps. */
  readonly price?: number;
  /** By how much the price or fee would have to rise (for a step: its cost by mass fall) for more of it to come in. */
  readonly rise?: number;
  /** price + rise */
  readonly comesInAt?: number;
  /** The share of an output that would have to go to another one instead, for steps. */
  readonly yield?: { readonly output: string; readonly givesWay: string; readonly share: number };
  /** What the best plan loses if `forced` mass more must go there. */
  readonly forced?: { readonly mass: number; readonly loss: number };
}

export type FirmnessKey =
  | { readonly kind: 'outletPrice'; readonly outlet: string; readonly tier: number }
  | { readonly kind: 'contractPrice'; readonly contract: string; readonly material: string }
  | { readonly kind: 'tippingFee'; readonly feed: string }
  | { readonly kind: 'powerPrice'; readonly window: string }
  | { readonly kind: 'wage'; readonly crew: string }
  | { readonly kind: 'wear'; readonly step: string }
  | { readonly kind: 'disposalCharge'; readonly disposal: string }
  | { readonly kind: 'demandCharge' }
  | { readonly kind: 'outletFreight' | 'outletPacking'; readonly outlet: string }
  | {
      readonly kind: 'contractFreight' | 'contractPacking';
      readonly contract: string;
      readonly material: string;
    }
  | { readonly kind: 'feedHaulage'; readonly feed: string }
  | { readonly kind: 'disposalHaulage'; readonly disposal: string; readonly material: string }
  | { readonly kind: 'holdingCost' | 'closingValue'; readonly material: string }
  | { readonly kind: 'shortfallCharge' | 'termCharge'; readonly contract: string };

/** A price or cost that the plan uses, moved by the same amount in every month. */
export interface Firmness {
  readonly number: FirmnessKey;
  readonly unit: 'money by mass' | 'money by energy' | 'money by hour' | 'money by load';
  /** By month, where it is used. */
  readonly now: readonly number[];
  readonly less: FirmSide;
  readonly more: FirmSide;
}

export interface FirmSide {
  /** How far it may move before the plan changes; absent: for ever, or as far as makes sense. */
  readonly by?: number;
  /** What changes first, the largest first: mass, hours or load over the months. */
  readonly changes: readonly PlanChange[];
}

export interface PlanChange {
  readonly what: ChangedNoun;
  readonly by: number;
}

/** A column's noun without its month, window and tier. */
export type ChangedNoun =
  | { readonly kind: 'receive'; readonly feed: string }
  | { readonly kind: 'run'; readonly step: string }
  | { readonly kind: 'sell'; readonly outlet: string }
  | { readonly kind: 'deliver'; readonly contract: string; readonly material: string }
  | { readonly kind: 'dispose'; readonly disposal: string; readonly material: string }
  | { readonly kind: 'stock'; readonly material: string }
  | { readonly kind: 'missed'; readonly contract: string };

export type ColumnKind = ColumnKey['kind'];

/** A shift more or less, each by a full solve with whole numbers. */
export interface StaffingChanges {
  readonly asked: readonly StaffingChange[];
  /** Windows for which it was not asked. */
  readonly left: number;
}

export interface StaffingChange {
  readonly crew: string;
  readonly window: string;
  readonly month: number;
  readonly shifts: number;
  /** Change in present value; absent where there can be none or no plan. */
  readonly oneMore?: number;
  readonly oneLess?: number;
  /** What the whole-number solves leave open: both figures are right to this. */
  readonly within: number;
}
