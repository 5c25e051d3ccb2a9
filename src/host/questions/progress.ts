import type { AnalysisProgress } from '../analysis-order.js';
import type { Progress } from './question.js';

/** Milliseconds between reports: more often only slows the answer down. */
const BETWEEN_REPORTS = 50;

/** Reports an analysis's progress, not more often than anybody reads it. */
export function countedProgress(report: (progress: Progress) => void): (progress: AnalysisProgress) => void {
  let reported = Number.NEGATIVE_INFINITY;
  return ({ done, of, estimate }) => {
    const now = performance.now();
    if (now - reported < BETWEEN_REPORTS && done !== of) return;
    reported = now;
    report({
      kind: 'counted',
      done,
      ...(of === undefined ? {} : { of }),
      ...(estimate === undefined ? {} : { estimate }),
    });
  };
}
