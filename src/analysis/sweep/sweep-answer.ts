import type { Problem } from '../../issue/problem.js';
import type { ColumnKey, RowKey } from '../../planning/keys.js';
import type { ParametricRow } from '../../program/parameter-column.js';
import type { PlanMove } from '../variant/plan-quantities.js';
import type { PlanTonnes } from '../variant/plan-tonnes.js';

/** Present value (currency) as a function of one number of a scenario, or of several tied together. */
export interface SweepAnswer {
  readonly status: 'complete' | 'partial';
  /** Every point and every straight stretch between two is exact. */
  readonly exact: boolean;
  /** What the number reaches in the program, on the answered ranges. */
  readonly reach: Reach;
  readonly ranges: readonly SweepRange[];
  /** From left to right, ends of the answered ranges and every breakpoint among them. */
  readonly points: readonly SweepPoint[];
  /** How far the curve may be from the straight lines between the points; absent where it is exact. */
  readonly error?: SweepError;
  /** Currency: how far a plan with whole numbers may lie below the best one, the most at any point. */
  readonly planGap?: number;
  /** For the values of the curve, cold ones included. */
  readonly solves: number;
  /** For telling plans apart: of plans of equal value the one with the fewest machine-hours. */
  readonly planSolves: number;
  /** Sum of the absolute money terms, the largest at any point: what tolerances are relative to. */
  readonly scale: number;
}

export type Reach = 'nothing' | 'objective' | 'right sides' | 'both' | 'matrix' | 'curved' | 'whole numbers';

export interface SweepPoint {
  readonly at: number;
  readonly value: number;
  /** Currency by unit of the number, left and right of the point; absent at an end, or where it is not known. */
  readonly slopeLeft?: number;
  readonly slopeRight?: number;
  /** `plan change`: the plan turns there although the value runs straight on. */
  readonly kind: 'end' | 'breakpoint' | 'plan change' | 'sample';
  /**
   * Of the best plan just left and just right of the point: they differ where the plan jumps. At an end there is
   * one only; where the analysis was stopped before the plans were told, none.
   */
  readonly tonnesLeft?: PlanTonnes;
  readonly tonnesRight?: PlanTonnes;
  /**
   * What changes in the plan there. `jump`: quantities before and after. `turn`: quantities by unit of the number
   * before and after, where the plan itself moves on without a jump.
   */
  readonly change?: { readonly manner: 'jump' | 'turn'; readonly moves: readonly PlanMove[] };
  /** A figure of the program bends here: a price or limit that follows the number meets its floor or ceiling. */
  readonly isBend?: true;
  /** How the plan moves from this point to the next although the value runs straight; absent where it stays. */
  readonly onward?: readonly PlanMove[];
}

export type SweepRange =
  | { readonly from: number; readonly to: number; readonly status: 'answered' }
  | { readonly from: number; readonly to: number; readonly status: 'not asked' }
  | { readonly from: number; readonly to: number; readonly status: 'no certified answer' }
  | {
      readonly from: number;
      readonly to: number;
      readonly status: 'invalid';
      readonly problems: readonly Problem[];
    }
  | {
      readonly from: number;
      readonly to: number;
      readonly status: 'infeasible';
      /** The limits that stand against each other at the edge; empty where they are not known. */
      readonly limits: readonly ParametricRow<RowKey, ColumnKey>[];
    };

/** In currency. `proved` from the duals; `measured`: at midpoints that had not been asked, and not proved. */
export interface SweepError {
  readonly kind: 'proved' | 'measured';
  readonly amount: number;
}
