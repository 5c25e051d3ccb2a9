import { formulate } from '../../planning/formulate.js';
import { relaxed } from '../../program/linear-program.js';
import type { Solver } from '../../solver/choose.js';
import { planMonths } from '../monthly-plan.js';
import type { PlannedAnswer } from '../plan-answer.js';
import { figuresOf, withParameter } from '../variant/parameter.js';
import { readVariant } from '../variant/read-variant.js';
import type { FeedOffer } from './feed-offer.js';

export interface FeeHooks {
  readonly cancelled?: () => boolean;
  /** After each solve; the highest present value of a plan so far. */
  readonly onProgress?: (progress: { readonly value?: number }) => void;
}

/** The plans at fees, each made once; those with whole numbers to a gap relative to the scale. */
export class FeePlans {
  solves = 0;
  private highest: number | undefined;
  private readonly made = new Map<string, PlannedAnswer | undefined>();

  constructor(
    private readonly document: unknown,
    private readonly offers: readonly FeedOffer[],
    readonly solver: Solver,
    private readonly gap: number,
    private readonly hooks: FeeHooks,
  ) {}

  variantAt(fees: readonly number[]) {
    const document = this.offers.reduce<unknown>((changed, { feed, perMass }, i) => {
      const parameter = { pointers: [`/feeds/${feed}/tippingFee`], kind: 'value' } as const;
      const found = figuresOf(changed, parameter);
      return found.ok ? withParameter(changed, parameter, found.figures, fees[i] / perMass) : changed;
    }, this.document);
    return readVariant(document);
  }

  /** A plan that was made already. */
  add(fees: readonly number[], answer: PlannedAnswer): void {
    this.made.set(fees.join(' '), answer);
    this.solves += answer.solves;
    this.highest = Math.max(this.highest ?? Number.NEGATIVE_INFINITY, answer.plan.statement.presentValue);
    this.hooks.onProgress?.({ value: this.highest });
  }

  planAt(fees: readonly number[]): PlannedAnswer | undefined {
    const key = fees.join(' ');
    if (!this.made.has(key) && !this.isCancelled) this.made.set(key, this.make(fees));
    return this.made.get(key);
  }

  valueAt(fees: readonly number[]): { value: number; scale: number } | undefined {
    const plan = this.planAt(fees);
    if (plan === undefined) return undefined;
    const { presentValue: value, scale } = plan.plan.statement;
    return { value, scale };
  }

  /** The same with whole shifts and windows in parts: at least as high. */
  valueInPartsAt(fees: readonly number[]): { value: number; scale: number } | undefined {
    const variant = this.variantAt(fees);
    if (!variant.ok) return undefined;
    const { program } = formulate(variant.plant);
    const answer = this.solver.solve(relaxed(program), { cancelled: this.cancelled });
    if (answer.kind !== 'solved') return undefined;
    const { objective: value, scale } = answer.certificate;
    this.hooks.onProgress?.(this.highest === undefined ? {} : { value: this.highest });
    return { value, scale };
  }

  get cancelled(): (() => boolean) | undefined {
    return this.hooks.cancelled;
  }

  get isCancelled(): boolean {
    return this.cancelled?.() === true;
  }

  private make(fees: readonly number[]): PlannedAnswer | undefined {
    const variant = this.variantAt(fees);
    if (!variant.ok) return undefined;
    const answer = planMonths(variant.plant, this.solver, { gap: this.gap, cancelled: this.cancelled });
    if (answer.status !== 'optimal') return undefined;
    this.add(fees, answer);
    return answer;
  }
}
