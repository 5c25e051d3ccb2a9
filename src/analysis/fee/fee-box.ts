import type { Formulation } from '../../planning/formulate.js';
import type { Solver } from '../../solver/choose.js';
import { goOn } from '../unfinished.js';
import { bestReply } from './best-reply.js';
import { readSplit, type Split } from './fee-split.js';
import type { FeedOffer } from './feed-offer.js';
import { type OfferProgram, offerProgram } from './offer-program.js';

/** Fees from `low` to `high`, currency per mass unit. */
export interface FeeRange {
  readonly low: number;
  readonly high: number;
}

/** A range of fees for each offer, and the most that any fees in them can earn. */
export interface FeeBox extends Split {
  readonly ranges: readonly FeeRange[];
  readonly bound: number;
}

/** What bounding boxes takes, and what it has taken so far. */
export interface BoxWork {
  readonly formulation: Formulation;
  readonly reference: readonly number[];
  readonly offers: readonly FeedOffer[];
  readonly solver: Solver;
  /** Relative to the scale. */
  readonly gap: number;
  readonly cancelled?: () => boolean;
  solves: number;
  scale: number;
}

/** Fees that each range is started with. */
const FIRST_FEES = 9;

const MOST_ROUNDS = 40;

/**
 * Bounds a box by letting each feed split itself between fees; columns are added where the worth of a tonne at
 * the gate calls for another fee. The bound holds for every fee in the ranges: it is the value of the split plus
 * what the best single replies to its worths could still add. Undefined where no plan exists in the box.
 *
 * @throws Unfinished
 */
export function boxOf(work: BoxWork, ranges: readonly FeeRange[]): FeeBox | undefined {
  const { formulation, reference, offers, solver } = work;
  const fees = ranges.map((range, i) => firstFees(offers[i], range));
  for (let round = 0; ; round++) {
    goOn(work.cancelled);
    const program = offerProgram(formulation, reference, offers, fees);
    const answer = solver.solve(program, { cancelled: work.cancelled });
    goOn(work.cancelled);
    work.solves += 1;
    if (answer.kind !== 'solved') return undefined;
    const { objective, scale } = answer.certificate;
    work.scale = Math.max(work.scale, scale);
    const replies = ranges.map(({ low, high }, i) =>
      bestReply(offers[i], worthOf(program, answer.rowDual, i), low, high),
    );
    const missing = replies.map(({ gain }, i) => gain - dualOfOne(program, answer.rowDual, i));
    const bound = objective + missing.reduce((sum, more) => sum + Math.max(0, more), 0);
    const isSettled = bound - objective <= 0.1 * work.gap * work.scale;
    const fresh = replies.filter(({ fee }, i) => missing[i] > 0 && !fees[i].includes(fee));
    if (isSettled || round >= MOST_ROUNDS || fresh.length === 0) {
      return { ranges, bound, ...readSplit(program, answer.answer.primal, offers, ranges) };
    }
    replies.forEach(({ fee }, i) => {
      if (!fees[i].includes(fee)) fees[i].push(fee);
    });
  }
}

function firstFees({ response }: FeedOffer, { low, high }: FeeRange): number[] {
  if (response.kind === 'table') return response.fees.filter((fee) => fee >= low && fee <= high);
  if (low === high) return [low];
  return Array.from({ length: FIRST_FEES }, (_, k) =>
    k === FIRST_FEES - 1 ? high : low + (k * (high - low)) / (FIRST_FEES - 1),
  );
}

/** What one more tonne received is worth beyond its fee: the dual of its row, by month. */
function worthOf(program: OfferProgram, rowDual: Float64Array, offer: number): number[] {
  const worth: number[] = [];
  program.rowKeys.forEach((key, i) => {
    if (key.kind === 'received' && key.offer === offer) worth[key.month] = rowDual[i];
  });
  return worth;
}

function dualOfOne(program: OfferProgram, rowDual: Float64Array, offer: number): number {
  const row = program.rowKeys.findIndex((key) => key.kind === 'one fee' && key.offer === offer);
  return rowDual[row];
}
