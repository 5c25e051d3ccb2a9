import * as z from 'zod';
import { assessRisk } from '../../analysis/risk/assess-risk.js';
import { readVariant } from '../../analysis/variant/read-variant.js';
import type { Problem } from '../../issue/problem.js';
import { riskDocument } from '../../report/finance/risk-document.js';
import { riskSchema } from '../../report/finance/risk-schema.js';
import { countedProgress } from './progress.js';
import { question } from './question.js';
import { replyKind } from './reply-kind.js';
import { withoutPlan } from './without-plan.js';

export const riskQuestion = question({
  name: 'risk',
  summary: 'The distribution of the value over the numbers that are uncertain',
  options: z.strictObject({
    seed: z
      .number()
      .int()
      .min(0)
      .max(2 ** 31 - 1)
      .describe('The same seed gives the same draws.'),
    draws: z.number().int().min(1).max(20_000).optional().describe('1000 if absent.'),
    level: z.number().optional().describe('Also how often, and by how much, the value falls below this.'),
  }),
  example: { seed: 7, draws: 20 },
  answer: riskSchema,
  pace: 'long',
  ask: ({ document }, { draws = DRAWS, ...rest }, solver, { cancelled, onProgress }) => {
    const variant = readVariant(document);
    if (!variant.ok) return { kind: 'problems', problems: variant.problems };
    const { scenario, plant } = variant;
    if ((scenario.uncertainty ?? []).length === 0) return { kind: 'problems', problems: [NOTHING_UNCERTAIN] };
    const report = countedProgress(onProgress);
    let [done, sum, planned] = [0, 0, 0];
    const answer = assessRisk(scenario, { ...rest, draws }, solver, {
      cancelled,
      onDraw: (_, outcome) => {
        done += 1;
        if (outcome.kind === 'planned') {
          sum += outcome.value;
          planned += 1;
        }
        report({ done, of: draws, ...(planned === 0 ? {} : { estimate: sum / planned }) });
      },
    });
    if (answer.status === 'problems') return { kind: 'problems', problems: answer.problems };
    if (answer.status !== 'complete' && answer.status !== 'partial') return withoutPlan(answer.status);
    return { kind: replyKind(answer.status), document: riskDocument(plant, answer) };
  },
});

const DRAWS = 1000;

const NOTHING_UNCERTAIN: Problem = {
  pointer: '/uncertainty',
  code: 'missing',
  message: 'The scenario says of no number that it is uncertain.',
  remedy: 'Give it a list `uncertainty`.',
};
