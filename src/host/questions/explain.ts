import * as z from 'zod';
import { readPlantDocument } from '../../plant/read-plant.js';
import { explanationSchema } from '../../report/explain/explain-schema.js';
import { explanationOf } from '../answer-explanation.js';
import { gapSchema } from './gap.js';
import { question } from './question.js';
import { replyKind } from './reply-kind.js';

/** With whole shifts: windows for which a shift more and less is solved, unless the request says. */
const STAFFED_WINDOWS = 0;

/** Why the plan is as it is, or what cannot all hold. */
export const explainQuestion = question({
  name: 'explain',
  summary: 'Why the plan is as it is, and what it would take to change it',
  options: z.strictObject({
    gap: gapSchema.optional(),
    shifts: z
      .number()
      .int()
      .min(0)
      .max(24)
      .optional()
      .describe(
        'With whole shifts: windows for which a shift more and less is solved. Each takes as long as the plan or longer. None if absent.',
      ),
  }),
  example: {},
  answer: explanationSchema,
  pace: 'short',
  keepsBest: true,
  ask: ({ document, scenarioDigest }, { gap, shifts }, solver, { seconds, cancelled }) => {
    const reading = readPlantDocument(document);
    if (!reading.ok) return { kind: 'problems', problems: reading.problems };
    const limits = { ...(gap === undefined ? {} : { gap }), seconds, cancelled };
    const options = { limits, staffedWindows: shifts ?? STAFFED_WINDOWS, scenarioDigest };
    const explanation = explanationOf(reading, solver, options);
    return { kind: replyKind(explanation.status), document: explanation };
  },
});
