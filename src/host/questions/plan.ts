import * as z from 'zod';
import { planMonths } from '../../analysis/monthly-plan.js';
import { readPlantDocument } from '../../plant/read-plant.js';
import { planDocument } from '../../report/plan-document.js';
import { planSchema } from '../../report/plan-schema.js';
import { gapSchema } from './gap.js';
import { question } from './question.js';
import { replyKind } from './reply-kind.js';

/** The plan that earns the most. */
export const planQuestion = question({
  name: 'plan',
  summary: 'The plan that earns the most, with its proof',
  options: z.strictObject({
    gap: gapSchema.optional(),
  }),
  example: {},
  answer: planSchema,
  pace: 'short',
  keepsBest: true,
  ask: ({ document, scenarioDigest }, { gap }, solver, { seconds, cancelled, onProgress }) => {
    const reading = readPlantDocument(document);
    if (!reading.ok) return { kind: 'problems', problems: reading.problems };
    const { plant, warnings } = reading;
    const answer = planMonths(plant, solver, {
      ...(gap === undefined ? {} : { gap }),
      seconds,
      cancelled,
      onProgress: (progress) => onProgress({ kind: 'whole numbers', ...progress }),
    });
    return {
      kind: replyKind(answer.status),
      document: planDocument(plant, answer, { warnings, scenarioDigest }),
    };
  },
});
