import * as z from 'zod';
import { namesRecord, warning } from '../schema/plan-parts.js';
import { monthLabel as month } from '../schema/quantities.js';
import { EXPLANATION_FORMAT } from './explain-document.js';

/** What the documents of `explain` have in common. */
export const head = {
  format: z.literal(EXPLANATION_FORMAT),
  title: z.string(),
  units: z.strictObject({ mass: z.enum(['tonne', 'short ton']), currency: z.string() }),
  horizon: z.strictObject({ firstMonth: month, months: z.number().int().min(1) }),
  scenarioDigest: z.string().optional(),
  warnings: z.array(warning),
  names: namesRecord,
  sentences: z.array(z.string()).describe('Plain sentences computed from the figures.'),
};
