import * as z from 'zod';
import type { Reply } from './question.js';
import { replyKind } from './reply-kind.js';

/** What is said where there is no plan to begin with. */
export const withoutPlanSchema = z
  .strictObject({
    status: z.enum(['infeasible', 'no certified answer', 'cancelled']),
    reasons: z.array(z.string()),
  })
  .meta({ id: 'withoutPlan' });

const REASONS = {
  infeasible: 'No plan meets all the limits of this scenario together. The question explain says which.',
  'no certified answer': 'No engine gave an answer that holds against the figures of the scenario.',
  cancelled: 'Stopped before anything was found.',
} as const;

export function withoutPlan(status: keyof typeof REASONS): Reply {
  return { kind: replyKind(status), document: { status, reasons: [REASONS[status]] } };
}
