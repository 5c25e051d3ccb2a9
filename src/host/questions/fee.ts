import * as z from 'zod';
import { readVariant } from '../../analysis/variant/read-variant.js';
import { feeReport } from '../../report/finance/fee-report.js';
import { feeSchema } from '../../report/finance/fee-schema.js';
import { answerOrder as answerAnalysis } from '../analysis-order.js';
import { countedProgress } from './progress.js';
import { question } from './question.js';
import { replyKind } from './reply-kind.js';
import { withoutPlan } from './without-plan.js';

export const feeQuestion = question({
  name: 'fee',
  summary: 'The tipping fees that earn most',
  options: z.strictObject({
    feeds: z
      .array(z.strictObject({ feed: z.string(), low: z.number(), high: z.number() }))
      .min(1)
      .max(20)
      .describe('The range of each fee, as the scenario writes it.'),
    gap: z
      .number()
      .min(1e-9)
      .max(1)
      .optional()
      .describe(
        'Stop where no fees can earn more than this above, a share of the money that moves. 1e-4 if absent.',
      ),
    points: z.number().int().min(2).max(500).optional().describe('Of each curve. 25 if absent.'),
  }),
  example: { feeds: [{ feed: 'workshops', low: 1, high: 2.5 }], points: 5 },
  answer: feeSchema,
  pace: 'short',
  ask: ({ document }, { feeds, ...rest }, solver, { cancelled, onProgress }) => {
    const variant = readVariant(document);
    if (!variant.ok) return { kind: 'problems', problems: variant.problems };
    const request = { ...rest, feeds: feeds.map(lowFirst) };
    const hooks = { cancelled, onProgress: countedProgress(onProgress) };
    const answer = answerAnalysis({ kind: 'fee', document: variant.scenario, request }, solver, hooks);
    if (answer.status === 'problems') return { kind: 'problems', problems: answer.problems };
    if (answer.status !== 'complete' && answer.status !== 'partial') return withoutPlan(answer.status);
    return { kind: replyKind(answer.status), document: feeReport(variant.plant, answer, {}).document };
  },
});

function lowFirst<T extends { readonly low: number; readonly high: number }>(range: T): T {
  return range.low <= range.high ? range : { ...range, low: range.high, high: range.low };
}
