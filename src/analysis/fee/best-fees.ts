import type { Formulation } from '../../planning/formulate.js';
import type { Solver } from '../../solver/choose.js';
import { Unfinished } from '../unfinished.js';
import { type BoxWork, boxOf, type FeeBox, type FeeRange } from './fee-box.js';
import type { FeedOffer } from './feed-offer.js';

/** The value of the best plan at given fees; undefined where there is none. */
export type ValueAt = (
  fees: readonly number[],
) => { readonly value: number; readonly scale: number } | undefined;

export interface BestFees {
  /** Currency per mass unit, by offer; absent where no fees that were tried have a plan. */
  readonly fees?: readonly number[];
  readonly value?: number;
  /** No fees in the ranges earn more: proved by the duals. Infinite where it was stopped before any was proved. */
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
}

/**
 * The fees that earn most together. The box of all ranges is bounded; where the feeds' best split is one fee each,
 * the bound is reached. Else the box is halved where a feed mixes most, and so on with the box of the highest bound.
 */
export function bestFees(
  formulation: Formulation,
  reference: readonly number[],
  offers: readonly FeedOffer[],
  valueAt: ValueAt,
  solver: Solver,
  options: BestFeesOptions,
): BestFees {
  const { gap, cancelled } = options;
  const work: BoxWork = { formulation, reference, offers, solver, gap, cancelled, solves: 0, scale: 1 };
  return new FeeSearch(work, valueAt, options).run();
}

class FeeSearch {
  private best: { fees: readonly number[]; value: number } | undefined;
  private readonly tried = new Set<string>();
  private readonly open: FeeBox[] = [];

  constructor(
    private readonly work: BoxWork,
    private readonly valueAt: ValueAt,
    private readonly options: BestFeesOptions,
  ) {}

  run(): BestFees {
    const { offers, reference } = this.work;
    this.try(offers.map(({ low, high }, i) => Math.min(high, Math.max(low, reference[i]))));
    this.try(offers.map(({ high }) => high));
    try {
      const root = boxOf(
        this.work,
        offers.map(({ low, high }) => ({ low, high })),
      );
      if (root !== undefined) this.open.push(root);
    } catch (error) {
      if (!(error instanceof Unfinished)) throw error;
      return this.answer(Number.POSITIVE_INFINITY, true);
    }
    const isCutShort = this.narrow();
    return this.answer(this.open.at(-1)?.bound ?? Number.NEGATIVE_INFINITY, isCutShort);
  }

  /** Opens boxes until none can hold more; whether it ended before that. */
  private narrow(): boolean {
    const { open, options } = this;
    for (let boxes = 0; ; boxes++) {
      open.sort((a, b) => a.bound - b.bound);
      const box = open.at(-1);
      if (box === undefined || box.bound <= this.enough()) return false;
      if (boxes >= options.mostBoxes || options.cancelled?.() === true) return true;
      for (const fees of box.candidates) this.try(fees);
      if (box.bound <= this.enough()) continue;
      try {
        const halves = this.halves(box);
        open.pop();
        open.push(...halves);
      } catch (error) {
        if (!(error instanceof Unfinished)) throw error;
        return true;
      }
    }
  }

  private answer(open: number, isCutShort: boolean): BestFees {
    const { best } = this;
    const { scale, solves } = this.work;
    const bound = Math.max(open, best?.value ?? Number.NEGATIVE_INFINITY);
    if (best === undefined) return { bound, scale, gap: Number.POSITIVE_INFINITY, solves, isCutShort };
    return { ...best, bound, scale, gap: (bound - best.value) / scale, solves, isCutShort };
  }

  /** A box with no higher bound than this need not be opened. */
  private enough(): number {
    return this.best === undefined
      ? Number.NEGATIVE_INFINITY
      : this.best.value + this.options.gap * this.work.scale;
  }

  private try(fees: readonly number[]): void {
    const key = fees.join(' ');
    if (this.tried.has(key)) return;
    this.tried.add(key);
    const found = this.valueAt(fees);
    this.work.solves += 1;
    if (found === undefined) return;
    this.work.scale = Math.max(this.work.scale, found.scale);
    if (this.best === undefined || found.value > this.best.value) this.best = { fees, value: found.value };
  }

  private halves({ ranges, split }: FeeBox): FeeBox[] {
    const { low, high } = ranges[split.offer];
    return [
      { low, high: split.fee },
      { low: split.fee, high },
    ].flatMap((half) => {
      if (!canHold(this.work.offers[split.offer], half)) return [];
      return (
        boxOf(
          this.work,
          ranges.map((range, i) => (i === split.offer ? half : range)),
        ) ?? []
      );
    });
  }
}

function canHold({ response }: FeedOffer, { low, high }: FeeRange): boolean {
  return response.kind !== 'table' || response.fees.some((fee) => fee >= low && fee <= high);
}
