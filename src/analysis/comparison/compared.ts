import type { Plant } from '../../plant/plant.js';
import type { PlanAnswer } from '../plan-answer.js';
import { type Bridge, bridge } from './bridge.js';

/** `partial`: one of the plans is the best found when it was stopped, not the best there is. */
export interface Comparison extends Bridge {
  readonly status: 'complete' | 'partial';
}

/** `side`: the scenario that has no plan, the first of them. */
export type ComparisonOutcome =
  | Comparison
  | { readonly status: 'infeasible' | 'no certified answer'; readonly side: 'before' | 'after' };

interface Answered {
  readonly plant: Plant;
  readonly answer: PlanAnswer;
}

/**
 * What lies between the plans of two scenarios.
 *
 * @throws RangeError where the two are in different units or currencies.
 */
export function compared(before: Answered, after: Answered): ComparisonOutcome {
  const [first, second] = [before.answer, after.answer];
  if (!('plan' in first)) return { status: first.status, side: 'before' };
  if (!('plan' in second)) return { status: second.status, side: 'after' };
  const isStopped = first.status === 'stopped' || second.status === 'stopped';
  return {
    status: isStopped ? 'partial' : 'complete',
    ...bridge({ plant: before.plant, plan: first.plan }, { plant: after.plant, plan: second.plan }),
  };
}
