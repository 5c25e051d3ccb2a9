import { type FeeRequest, feesThatEarnMost } from '../analysis/fee/fee.js';
import type { FeeOutcome } from '../analysis/fee/fee-answer.js';
import { planMonths } from '../analysis/monthly-plan.js';
import type { PlanAnswer } from '../analysis/plan-answer.js';
import { type EvaluatedDraw, evaluateDraws } from '../analysis/risk/evaluate-draws.js';
import {
  type RiskModel,
  type RiskModelFound,
  type RiskRequest,
  riskModel,
} from '../analysis/risk/risk-model.js';
import { type SweepOutcome, type SweepRequest, sweep } from '../analysis/sweep/sweep.js';
import { type SweepMapOutcome, type SweepMapRequest, sweepMap } from '../analysis/sweep/sweep-map.js';
import {
  type TornadoHooks,
  type TornadoItem,
  type TornadoOutcome,
  tornado,
} from '../analysis/tornado/tornado.js';
import { readVariant, type Variant } from '../analysis/variant/read-variant.js';
import type { Solver } from '../solver/choose.js';
import {
  answerOffer,
  answerOffers,
  type OfferAnswerLimits,
  type OfferQuestion,
  type OfferReply,
  type OffersQuestion,
} from './answer-offer.js';
import { drawsCounted } from './draws-counted.js';

/** A question for a worker thread. `document` is a scenario that was read from JSON. */
export type AnalysisOrder =
  | { readonly kind: 'sweep'; readonly document: unknown; readonly request: SweepRequest }
  | { readonly kind: 'sweep map'; readonly document: unknown; readonly request: SweepMapRequest }
  | { readonly kind: 'fee'; readonly document: unknown; readonly request: FeeRequest }
  | { readonly kind: 'tornado'; readonly document: unknown; readonly items: readonly TornadoItem[] }
  | { readonly kind: 'risk model'; readonly document: unknown; readonly request: RiskRequest }
  /** Walks path after path, each taken by raising `next`, which those who share the work share. */
  | { readonly kind: 'risk draws'; readonly model: RiskModel; readonly next: Int32Array<SharedArrayBuffer> }
  | {
      readonly kind: 'offer';
      readonly document: unknown;
      readonly question: OfferQuestion;
      readonly limits: OfferLimits;
    }
  | {
      readonly kind: 'offers';
      readonly document: unknown;
      readonly question: OffersQuestion;
      readonly limits: OfferLimits;
    }
  | { readonly kind: 'plan'; readonly document: unknown };

type OfferLimits = Pick<OfferAnswerLimits, 'gap' | 'wholeSeconds'>;

interface Answers {
  readonly sweep: SweepOutcome;
  readonly 'sweep map': SweepMapOutcome;
  readonly fee: FeeOutcome;
  readonly tornado: TornadoOutcome;
  readonly 'risk model': RiskModelFound;
  readonly 'risk draws': readonly EvaluatedDraw[];
  readonly offer: OfferReply;
  readonly offers: ReturnType<typeof answerOffers>;
  readonly plan: { readonly variant: Variant; readonly answer?: PlanAnswer };
}

export type AnalysisAnswer<O extends AnalysisOrder> = Answers[O['kind']];

/** How far a question has come: steps done, of how many where that is known, and the estimate so far. */
export interface AnalysisProgress {
  readonly done: number;
  readonly of?: number;
  /** Present value. */
  readonly estimate?: number;
  /** Draws that the estimate is the mean of. */
  readonly counted?: number;
}

export interface AnalysisHooks {
  readonly cancelled?: () => boolean;
  readonly onProgress?: (progress: AnalysisProgress) => void;
}

/** Answers an order in this thread. */
export function answerOrder<O extends AnalysisOrder>(
  order: O,
  solver: Solver,
  hooks: AnalysisHooks = {},
): AnalysisAnswer<O> {
  return answerOf(order, solver, hooks) as AnalysisAnswer<O>;
}

function answerOf(order: AnalysisOrder, solver: Solver, { cancelled, onProgress }: AnalysisHooks) {
  switch (order.kind) {
    case 'sweep':
      return sweep(order.document, order.request, solver, {
        cancelled,
        onProgress: ({ done, highest }) => onProgress?.({ done, estimate: highest }),
      });
    case 'sweep map':
      return sweepMap(order.document, order.request, solver, {
        cancelled,
        onRow: (done) => onProgress?.({ done, of: order.request.by.rows }),
      });
    case 'fee': {
      let done = 0;
      return feesThatEarnMost(order.document, order.request, solver, {
        cancelled,
        onProgress: ({ value }) => onProgress?.({ done: ++done, estimate: value }),
      });
    }
    case 'tornado': {
      const hooks: TornadoHooks = { cancelled, onProgress };
      return tornado(order.document, order.items, solver, hooks);
    }
    case 'risk model':
      return riskModel(order.document, order.request, solver, { cancelled });
    case 'risk draws':
      return evaluateNextPaths(order, solver, { cancelled, onProgress });
    case 'offer':
      return answerOffer(order.document, order.question, solver, { ...order.limits, cancelled });
    case 'offers':
      return answerOffers(order.document, order.question, solver, { ...order.limits, cancelled });
    case 'plan': {
      const variant = readVariant(order.document);
      return variant.ok ? { variant, answer: planMonths(variant.plant, solver, { cancelled }) } : { variant };
    }
  }
}

function evaluateNextPaths(
  { model, next }: Extract<AnalysisOrder, { readonly kind: 'risk draws' }>,
  solver: Solver,
  { cancelled, onProgress }: AnalysisHooks,
): EvaluatedDraw[] {
  const evaluated: EvaluatedDraw[] = [];
  const onDraw = drawsCounted((progress) => onProgress?.(progress));
  while (cancelled?.() !== true) {
    const path = model.paths[Atomics.add(next, 0, 1)];
    if (path === undefined) break;
    evaluated.push(...evaluateDraws(model, path, solver, { cancelled, onDraw }));
  }
  return evaluated;
}
