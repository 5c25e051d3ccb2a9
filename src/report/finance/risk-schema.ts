import * as z from 'zod';
import { completeness, unitsSchema } from './quantities-schema.js';

export const RISK_FORMAT = 'cutpoint-risk/1';

const distribution = z
  .strictObject({
    count: z.number().int(),
    mean: z.number(),
    standardDeviation: z.number(),
    standardError: z.number(),
    lowest: z.number(),
    highest: z.number(),
    quantiles: z.array(z.strictObject({ share: z.number(), value: z.number() })),
    worstTwentieth: z.number().describe('Mean of the worst twentieth.'),
  })
  .meta({ id: 'distribution' });

export const riskSchema = z
  .strictObject({
    format: z.literal(RISK_FORMAT),
    title: z.string(),
    units: unitsSchema,
    status: completeness,
    seed: z.number().int(),
    draws: z.number().int(),
    evaluated: z.number().int(),
    areAlike: z
      .literal(true)
      .optional()
      .describe('Stopped so early that the draws evaluated are alike: they are no sample of all.'),
    distribution: distribution.optional().describe('Of the present value; absent where no draw has a plan.'),
    values: z.array(z.number().nullable()).describe('In the order of draws; null where a draw has no plan.'),
    shortfall: z.strictObject({ level: z.number(), share: z.number(), mean: z.number() }).optional(),
    withoutPlan: z
      .strictObject({
        infeasible: z.number().int(),
        invalid: z.number().int(),
        uncertified: z.number().int(),
        problems: z
          .array(z.strictObject({ pointer: z.string(), draws: z.number().int(), message: z.string() }))
          .describe('What makes drawn scenarios invalid, in how many draws; most frequent first.'),
        limits: z
          .array(z.strictObject({ limit: z.string(), draws: z.number().int() }))
          .describe(
            'The limits that stand against each other in the infeasible draws, in words, and in how many of them each does; most frequent first. Several take part in one draw.',
          ),
        firstInfeasible: z.array(z.number().int()).describe('Places in the order of draws, from 0.'),
      })
      .describe('Draws that have no plan, counted.'),
    rungs: z
      .array(
        z.strictObject({
          material: z.string(),
          share: z.number().describe('Of the draws with a plan, those in which any of it leaves the plant.'),
          mass: z.number().describe('That leaves, the mean over them.'),
        }),
      )
      .describe('Where tonnes leave the plant.'),
    advance: z
      .strictObject({ kept: z.number().int(), broken: z.number().int(), loss: distribution.optional() })
      .describe('The plan made in advance, against one made after the draw.'),
  })
  .describe('The distribution of the present value over the numbers that are uncertain.')
  .meta({ id: 'riskDocument' });

export type RiskDocument = z.infer<typeof riskSchema>;
