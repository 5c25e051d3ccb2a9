import * as z from 'zod';
import { EFFECTS } from '../../analysis/comparison/bridge.js';
import { COMPARISON_FORMAT } from './comparison-report.js';
import { completeness, unitsSchema } from './quantities-schema.js';

export const comparisonSchema = z
  .strictObject({
    format: z.literal(COMPARISON_FORMAT),
    before: z.string().describe('Title.'),
    after: z.string().describe('Title.'),
    units: unitsSchema,
    status: completeness,
    from: z.number().describe('Margin before, plain money.'),
    to: z.number(),
    effects: z.array(
      z.strictObject({
        effect: z.enum(EFFECTS),
        amount: z.number(),
        parts: z.array(z.strictObject({ line: z.string(), id: z.string(), amount: z.number() })),
      }),
    ),
    definitions: z.record(z.string(), z.string()).describe('What each effect is.'),
  })
  .describe('From one margin to another, by effects that add up.')
  .meta({ id: 'comparisonDocument' });
