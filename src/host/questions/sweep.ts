import * as z from 'zod';
import { readVariant } from '../../analysis/variant/read-variant.js';
import { sweepDocument, sweepMapDocument } from '../../report/finance/sweep-document.js';
import { sweepMapSchema, sweepSchema } from '../../report/finance/sweep-schema.js';
import { answerOrder as answerAnalysis } from '../analysis-order.js';
import { parameterSchema } from './parameter.js';
import { countedProgress } from './progress.js';
import { question } from './question.js';
import { replyKind } from './reply-kind.js';

const range = { parameter: parameterSchema, from: z.number(), to: z.number().describe('Not below `from`.') };

/** The value as a function of a number. */
export const sweepQuestion = question({
  name: 'sweep',
  summary: 'The value of the best plan as a function of any number, with every breakpoint',
  options: z.strictObject({
    ...range,
    tolerance: z
      .number()
      .min(1e-9)
      .max(1)
      .optional()
      .describe(
        'Where the curve is sampled: stop at this error, a share of the money that moves. 1e-4 if absent.',
      ),
    mostPoints: z.number().int().min(2).max(2000).optional().describe('Where it is sampled. 129 if absent.'),
    by: z
      .strictObject({ ...range, rows: z.number().int().min(1).max(25) })
      .optional()
      .describe('A second number: one curve for each of its values.'),
  }),
  example: { parameter: { pointers: ['/feeds/workshops/tippingFee'], kind: 'factor' }, from: 0.5, to: 1.5 },
  answer: z.union([sweepSchema, sweepMapSchema]),
  pace: 'short',
  ask: ({ document }, { by, ...asked }, solver, { cancelled, onProgress }) => {
    const variant = readVariant(document);
    if (!variant.ok) return { kind: 'problems', problems: variant.problems };
    const { scenario, plant } = variant;
    const request = inOrder(asked);
    const hooks = { cancelled, onProgress: countedProgress(onProgress) };
    if (by === undefined) {
      const answer = answerAnalysis({ kind: 'sweep', document: scenario, request }, solver, hooks);
      if (answer.status === 'problems') return { kind: 'problems', problems: answer.problems };
      return { kind: replyKind(answer.status), document: sweepDocument(scenario, plant, request, answer) };
    }
    const map = { ...request, by: inOrder(by) };
    const answer = answerAnalysis({ kind: 'sweep map', document: scenario, request: map }, solver, hooks);
    if (answer.status === 'problems') return { kind: 'problems', problems: answer.problems };
    return {
      kind: replyKind(answer.status),
      document: sweepMapDocument(scenario, plant, request, map.by.parameter, answer.rows),
    };
  },
});

function inOrder<T extends { readonly from: number; readonly to: number }>(range: T): T {
  return range.from <= range.to ? range : { ...range, from: range.to, to: range.from };
}
