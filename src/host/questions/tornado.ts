import * as z from 'zod';
import { readVariant } from '../../analysis/variant/read-variant.js';
import { tornadoReport } from '../../report/finance/tornado-report.js';
import { tornadoSchema } from '../../report/finance/tornado-schema.js';
import { answerOrder as answerAnalysis } from '../analysis-order.js';
import { parameterSchema } from './parameter.js';
import { countedProgress } from './progress.js';
import { question } from './question.js';
import { replyKind } from './reply-kind.js';
import { withoutPlan } from './without-plan.js';

export const tornadoQuestion = question({
  name: 'tornado',
  summary: 'Which numbers matter',
  options: z.strictObject({
    items: z
      .array(z.strictObject({ parameter: parameterSchema, low: z.number(), high: z.number() }))
      .min(1)
      .max(200)
      .describe('Each number and how far it may go.'),
  }),
  example: {
    items: [
      { parameter: { pointers: ['/feeds/workshops/tippingFee'], kind: 'factor' }, low: 0.9, high: 1.1 },
    ],
  },
  answer: tornadoSchema,
  pace: 'short',
  ask: ({ document }, { items }, solver, { cancelled, onProgress }) => {
    const variant = readVariant(document);
    if (!variant.ok) return { kind: 'problems', problems: variant.problems };
    const { scenario, plant } = variant;
    const hooks = { cancelled, onProgress: countedProgress(onProgress) };
    const answer = answerAnalysis({ kind: 'tornado', document: scenario, items }, solver, hooks);
    if (answer.status === 'problems') return { kind: 'problems', problems: answer.problems };
    if (answer.status !== 'complete' && answer.status !== 'partial') return withoutPlan(answer.status);
    return { kind: replyKind(answer.status), document: tornadoReport(scenario, plant, answer).document };
  },
});
