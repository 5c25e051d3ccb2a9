import type { ReplyKind } from './question.js';

const KINDS = {
  optimal: 'answered',
  complete: 'answered',
  explained: 'answered',
  judged: 'answered',
  stopped: 'stopped',
  partial: 'stopped',
  cancelled: 'no certified answer',
  infeasible: 'infeasible',
  'no certified answer': 'no certified answer',
} as const satisfies Readonly<Record<string, ReplyKind>>;

/** What kind of reply an analysis's status is. */
export function replyKind(status: keyof typeof KINDS): ReplyKind {
  return KINDS[status];
}
