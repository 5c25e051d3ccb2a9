import type { AffineChange } from '../../program/affine-change.js';

/** A limit or a promise of the scenario in one month, in the user's nouns. `month` is an index. */
export type LimitKey =
  | {
      readonly kind: 'machineHours';
      readonly machine: string;
      readonly window: string;
      readonly month: number;
    }
  | { readonly kind: 'crewHours'; readonly crew: string; readonly window: string; readonly month: number }
  | { readonly kind: 'feedCommitted' | 'feedAvailable'; readonly feed: string; readonly month: number }
  | { readonly kind: 'outletTier'; readonly outlet: string; readonly tier: number; readonly month: number }
  | {
      readonly kind: 'contractMinimum' | 'contractMaximum' | 'contractCall' | 'termMinimum' | 'termMaximum';
      readonly contract: string;
      readonly month: number;
    }
  | {
      readonly kind: 'quality';
      readonly contract: string;
      readonly measure: string;
      readonly bound: 'min' | 'max';
      readonly month: number;
    }
  | {
      readonly kind: 'stockMinimum' | 'closingStock' | 'stockCapacity';
      readonly material: string;
      readonly month: number;
    }
  | { readonly kind: 'store'; readonly store: string; readonly month: number }
  | { readonly kind: 'disposalLimit'; readonly disposal: string; readonly month: number };

export type LimitKind = LimitKey['kind'];

const PROMISES: ReadonlySet<LimitKind> = new Set([
  'contractMinimum',
  'contractCall',
  'termMinimum',
  'closingStock',
  'stockMinimum',
  'feedCommitted',
]);

/** Whether a limit is a promise: an amount that must be reached, whatever it costs. */
export function isPromise({ kind }: LimitKey): boolean {
  return PROMISES.has(kind);
}

/** `mass × measure`: mass times the unit of the measure, by which an average in a mix misses its limit. */
export type LimitUnit = 'mass' | 'machine-hour' | 'crew-hour' | 'mass × measure';

export interface PlanLimit {
  readonly key: LimitKey;
  readonly unit: LimitUnit;
  /** Right side of the row or bound. */
  readonly amount: number;
  /** `at most`, `at least`, or both at once. */
  readonly sense: 'upper' | 'lower' | 'equal';
  /** The row or column of the program that carries it. */
  readonly place: { readonly kind: 'row' | 'column'; readonly index: number };
  /** One unit more of it: all bounds that move with it. */
  readonly change: AffineChange;
}
