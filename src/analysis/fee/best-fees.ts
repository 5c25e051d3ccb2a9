import type { Formulation } from '../../planning/formulate.js';
import type { Solver } from '../../solver/choose.js';
import { bestReply } from './best-reply.js';
import type { FeedOffer } from './feed-offer.js';
import { type OfferProgram, offerProgram } from './offer-program.js';

/** The value of the best plan at given fees; undefined where there is none. */
export type ValueAt = (
  fees: readonly number[],
) => { readonly value: number; readonly scale: number } | undefined;

export interface BestFees {
  /** Currency per mass unit, by offer; absent where no fees that were tried have a plan. */
  readonly fees?: readonly number[];
  readonly value?: number;
  /** No fees in the ranges earn more: proved by the duals. */
  readonly bound: number;
  readonly scale: number;
  /** (bound − value) / scale */
  readonly gap: number;
  readonly solves: number;
  /** Fewer boxes than it takes to close the gap: stopped by the user or by the limit. */
  readonly isCutShort: boolean;
}

export interface BestFeesOptions {
  /** Relative to the scale. */
  readonly gap: number;
  readonly mostBoxes: number;
  readonly cancelled?: () => boolean;
  readonly onProgress?: (progress: { readonly value?: number; readonly bound: number }) => void;
}

interface Range {
  readonly low: number;
  readonly high: number;
}

interface Box {
  readonly ranges: readonly Range[];
  readonly bound: number;
  /** Where to split: the offer that mixes most, and its mean fee. */
  readonly split: { readonly offer: number; readonly fee: number };
  readonly candidates: readonly (readonly number[])[];
}

/** Fees that each range is started with. */
const FIRST_FEES = 9;

const MOST_ROUNDS = 40;

/**
 * The fees that earn most together. A box of ranges is bounded by letting each feed split itself between fees
 * (columns are added where the worth of a tonne at the gate calls for another fee); where the split is one fee,
 * the bound is reached. Else the box is halved where a feed mixes most. The bound holds for every fee in the
 * range: it is the value of the split plus what the best single replies to its worths could still add.
 */
export function bestFees(
  formulation: Formulation,
  reference: readonly number[],
  offers: readonly FeedOffer[],
  valueAt: ValueAt,
  solver: Solver,
  options: BestFeesOptions,
): BestFees {
  const search = new FeeSearch(formulation, reference, offers, valueAt, solver, options);
  return search.run();
}

class FeeSearch {
  private solves = 0;
  private best: { fees: readonly number[]; value: number } | undefined;
  private scale = 1;
  private readonly tried = new Set<string>();

  constructor(
    private readonly formulation: Formulation,
    private readonly reference: readonly number[],
    private readonly offers: readonly FeedOffer[],
    private readonly valueAt: ValueAt,
    private readonly solver: Solver,
    private readonly options: BestFeesOptions,
  ) {}

  run(): BestFees {
    this.try(this.offers.map(({ low, high }, i) => Math.min(high, Math.max(low, this.reference[i]))));
    this.try(this.offers.map(({ high }) => high));
    const open: Box[] = [];
    const root = this.boxOf(this.offers.map(({ low, high }) => ({ low, high })));
    if (root !== undefined) open.push(root);
    let boxes = 0;
    let isCutShort = false;
    for (;;) {
      open.sort((a, b) => a.bound - b.bound);
      const box = open.at(-1);
      if (box === undefined || box.bound <= this.enough()) break;
      if (boxes++ >= this.options.mostBoxes || this.options.cancelled?.() === true) {
        isCutShort = true;
        break;
      }
      open.pop();
      for (const fees of box.candidates) this.try(fees);
      this.options.onProgress?.({
        ...(this.best === undefined ? {} : { value: this.best.value }),
        bound: box.bound,
      });
      if (box.bound > this.enough()) open.push(...this.halves(box));
    }
    return this.answer(open.at(-1)?.bound ?? Number.NEGATIVE_INFINITY, isCutShort);
  }

  private answer(open: number, isCutShort: boolean): BestFees {
    const { best, scale, solves } = this;
    const bound = Math.max(open, best?.value ?? Number.NEGATIVE_INFINITY);
    if (best === undefined) return { bound, scale, gap: Number.POSITIVE_INFINITY, solves, isCutShort };
    return { ...best, bound, scale, gap: (bound - best.value) / scale, solves, isCutShort };
  }

  /** A box with no higher bound than this need not be opened. */
  private enough(): number {
    return this.best === undefined
      ? Number.NEGATIVE_INFINITY
      : this.best.value + this.options.gap * this.scale;
  }

  private try(fees: readonly number[]): void {
    const key = fees.join(' ');
    if (this.tried.has(key)) return;
    this.tried.add(key);
    const found = this.valueAt(fees);
    this.solves += 1;
    if (found === undefined) return;
    this.scale = Math.max(this.scale, found.scale);
    if (this.best === undefined || found.value > this.best.value) this.best = { fees, value: found.value };
  }

  private halves({ ranges, split }: Box): Box[] {
    const { low, high } = ranges[split.offer];
    return [
      { low, high: split.fee },
      { low: split.fee, high },
    ].flatMap((half) => {
      if (!this.canHold(split.offer, half)) return [];
      return this.boxOf(ranges.map((range, i) => (i === split.offer ? half : range))) ?? [];
    });
  }

  private canHold(offer: number, { low, high }: Range): boolean {
    const { response } = this.offers[offer];
    return response.kind !== 'table' || response.fees.some((fee) => fee >= low && fee <= high);
  }

  /** Undefined where no plan exists in the box. */
  private boxOf(ranges: readonly Range[]): Box | undefined {
    const fees = ranges.map((range, i) => this.firstFees(i, range));
    for (let round = 0; ; round++) {
      const program = offerProgram(this.formulation, this.reference, this.offers, fees);
      const answer = this.solver.solve(program);
      this.solves += 1;
      if (answer.kind !== 'solved') return undefined;
      const { objective, scale } = answer.certificate;
      this.scale = Math.max(this.scale, scale);
      const replies = ranges.map(({ low, high }, i) =>
        bestReply(this.offers[i], this.worthOf(program, answer.rowDual, i), low, high),
      );
      const missing = replies.map(({ gain }, i) => gain - dualOfOne(program, answer.rowDual, i));
      const bound = objective + missing.reduce((sum, more) => sum + Math.max(0, more), 0);
      const isSettled = bound - objective <= 0.1 * this.options.gap * this.scale;
      const fresh = replies.filter(({ fee }, i) => missing[i] > 0 && !fees[i].includes(fee));
      if (isSettled || round >= MOST_ROUNDS || fresh.length === 0) {
        return { ranges, bound, ...this.readSplit(program, answer.answer.primal, ranges) };
      }
      replies.forEach(({ fee }, i) => {
        if (!fees[i].includes(fee)) fees[i].push(fee);
      });
    }
  }

  private firstFees(offer: number, { low, high }: Range): number[] {
    const { response } = this.offers[offer];
    if (response.kind === 'table') return response.fees.filter((fee) => fee >= low && fee <= high);
    if (low === high) return [low];
    return Array.from({ length: FIRST_FEES }, (_, k) =>
      k === FIRST_FEES - 1 ? high : low + (k * (high - low)) / (FIRST_FEES - 1),
    );
  }

  /** What one more tonne received is worth beyond its fee: the dual of its row, by month. */
  private worthOf(program: OfferProgram, rowDual: Float64Array, offer: number): number[] {
    const worth: number[] = [];
    program.rowKeys.forEach((key, i) => {
      if (key.kind === 'received' && key.offer === offer) worth[key.month] = rowDual[i];
    });
    return worth;
  }

  private readSplit(program: OfferProgram, primal: Float64Array, ranges: readonly Range[]) {
    const shares = ranges.map((): { fee: number; share: number }[] => []);
    program.columnKeys.forEach((key, j) => {
      if (key.kind === 'share' && primal[j] > 1e-9)
        shares[key.offer].push({ fee: key.fee, share: primal[j] });
    });
    const means = shares.map((own) => own.reduce((sum, { fee, share }) => sum + fee * share, 0));
    const main = shares.map(
      (own, i) => own.reduce((a, b) => (b.share > a.share ? b : a), { fee: means[i], share: 0 }).fee,
    );
    const mixing = shares.map((own, i) =>
      own.reduce((sum, { fee, share }) => sum + share * Math.abs(fee - means[i]), 0),
    );
    const width = ranges.map(({ low, high }) => high - low);
    const most = mixing.reduce(
      (best, own, i) => (own / (width[i] || 1) > mixing[best] / (width[best] || 1) ? i : best),
      0,
    );
    const isMixed = mixing[most] > 1e-9 * width[most];
    const offer = isMixed ? most : width.indexOf(Math.max(...width));
    return {
      split: { offer, fee: this.splitFee(offer, ranges[offer], isMixed ? means[offer] : main[offer]) },
      candidates: this.candidates(means, main, shares),
    };
  }

  /** Well inside the range; for a table between two listed fees. */
  private splitFee(offer: number, { low, high }: Range, wanted: number): number {
    const { response } = this.offers[offer];
    if (response.kind !== 'table') {
      const inside = Math.min(high - 0.05 * (high - low), Math.max(low + 0.05 * (high - low), wanted));
      return inside;
    }
    const listed = response.fees.filter((fee) => fee >= low && fee <= high);
    const k = Math.max(
      1,
      Math.min(
        listed.length - 1,
        listed.findIndex((fee) => fee >= wanted),
      ),
    );
    return listed.length < 2 ? (low + high) / 2 : (listed[k - 1] + listed[k]) / 2;
  }

  /** The main fees, and for each feed the single fee that draws the tonnes of its split. */
  private candidates(
    means: readonly number[],
    main: readonly number[],
    shares: readonly (readonly { fee: number; share: number }[])[],
  ): number[][] {
    const byTonnes = this.offers.map(({ response, low, high }, i) => {
      if (response.kind !== 'elastic' || response.elasticity === 0) return main[i];
      const { elasticity: e } = response;
      const drawn = shares[i].reduce((sum, { fee, share }) => sum + share * fee ** e, 0);
      return Math.min(high, Math.max(low, drawn ** (1 / e)));
    });
    const single = means.map((mean, i) => (this.offers[i].response.kind === 'table' ? main[i] : mean));
    return [main as number[], byTonnes, single];
  }
}

function dualOfOne(program: OfferProgram, rowDual: Float64Array, offer: number): number {
  const row = program.rowKeys.findIndex((key) => key.kind === 'one fee' && key.offer === offer);
  return rowDual[row];
}
