import type { Problem } from '../../issue/problem.js';
import type { DeclineFees } from './decline.js';

export interface FeeAnswer {
  readonly status: 'complete' | 'partial';
  /** Present value at the scenario's own fees; absent where it has no plan. */
  readonly own?: number;
  /** Present value at the best fees. */
  readonly value: number;
  /** No fees in the ranges earn more: proved. Absent where it was stopped before anything was. */
  readonly bound?: number;
  /** (bound − value) / scale */
  readonly gap?: number;
  /** The bound takes whole shifts and windows in parts: it may lie above what any fees earn with whole ones. */
  readonly isBoundInParts?: true;
  readonly scale: number;
  readonly feeds: readonly FeedFee[];
  readonly solves: number;
}

export interface FeedFee {
  readonly feed: string;
  /** The best, as the scenario writes it. */
  readonly fee: number;
  /** Currency per mass unit. */
  readonly feeByMass: number;
  readonly range: { readonly low: number; readonly high: number };
  /** Mass received at it over the horizon, committed included, and what it pays, plain money. */
  readonly tonnes: number;
  readonly income: number;
  /** What the fee stands at: inside the range, or at one of its ends, and then why. */
  readonly standing: FeeStanding;
  readonly decline?: DeclineFees;
  /** Worth of a tonne at the gate, money of each month's end, in the plan at the best fees. */
  readonly worth: readonly number[];
  /** With the other feeds at their best fees; of a stopped search, the points that were found. */
  readonly curve: readonly FeePoint[];
}

/**
 * Where income rises with the fee without end, so that only the range limits it, the standing says why:
 * `no response`, none goes away whatever is asked; `inelastic`, an elasticity between −1 and 0, so that those who go
 * weigh less than what the others pay; `committed pay`, committed tonnes that pay whatever is asked.
 */
export type FeeStanding =
  | 'inside'
  | 'lower end'
  | 'upper end'
  | 'no response'
  | 'inelastic'
  | 'committed pay'
  | 'listed';

export interface FeePoint {
  readonly fee: number;
  /** Present value; absent where there is no plan. */
  readonly value?: number;
  readonly tonnes?: number;
  readonly income?: number;
}

export type FeeOutcome =
  | FeeAnswer
  | { readonly status: 'problems'; readonly problems: readonly Problem[] }
  | { readonly status: 'infeasible' | 'no certified answer' | 'cancelled' };
