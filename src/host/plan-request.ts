import type { Problem } from '../issue/problem.js';
import type { PlanDocument } from '../report/plan-document.js';
import type { EngineChoice } from '../solver/choose.js';
import type { SolveProgress } from '../solver/port.js';

/** A scenario to be planned, and how far to go. */
export interface PlanRequest {
  /** The scenario, JSON. */
  readonly text: string;
  readonly engine: EngineChoice;
  /** Gap, relative to the money that moves, at which a whole-number solve may stop. */
  readonly gap?: number;
  /** Seconds of wall clock. */
  readonly seconds?: number;
  readonly scenarioDigest?: string;
}

export type PlanOutcome =
  | { readonly kind: 'problems'; readonly problems: readonly Problem[] }
  | { readonly kind: 'document'; readonly document: PlanDocument };

/** A program with whole numbers: how far it has come, and the amounts' currency. */
export interface PlanProgress extends SolveProgress {
  readonly currency: string;
}

/** What may happen while a scenario is answered, whole-number solves beside the caller. */
export interface PlanHooks {
  /** Called with the months, YYYY-MM, once the scenario is read; what it throws ends the matter. */
  readonly onRead?: (months: readonly string[]) => void;
  readonly onProgress?: (progress: PlanProgress) => void;
  /** Called once with what stops the solve; the best plan so far is then the answer. */
  readonly onStart?: (stop: () => void) => void;
  readonly onEnd?: () => void;
}
