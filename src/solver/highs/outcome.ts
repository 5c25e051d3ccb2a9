import type { HighsConstants, ModelStatusCode } from 'highs';
import type { StopReason } from '../port.js';

/** What a run of HiGHS came to; `unknown` is a status that this adapter does not take for an answer. */
export type Outcome = StopReason | 'unbounded or infeasible' | { readonly unknown: ModelStatusCode };

export function outcomeOf(status: ModelStatusCode, codes: HighsConstants['modelStatus']): Outcome {
  switch (status) {
    case codes.optimal:
      return 'optimal';
    case codes.infeasible:
      return 'infeasible';
    case codes.unbounded:
      return 'unbounded';
    case codes.unboundedOrInfeasible:
      return 'unbounded or infeasible';
    case codes.timeLimit:
      return 'time limit';
    case codes.interrupted:
      return 'cancelled';
    default:
      return { unknown: status };
  }
}
