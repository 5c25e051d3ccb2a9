import * as z from 'zod';
import {
  idSchema,
  materialListSchema,
  nameSchema,
  nonNegativeRateSchema,
  nonNegativeSchema,
  positiveSchema,
  rateSchema,
  series,
} from './figures.js';

/** Where material comes in, and where waste goes out. */

const responseSchema = z
  .union([
    z.strictObject({
      elasticity: z.number().max(0).describe('Percent of tonnes for one percent of fee, 0 or less.'),
      at: rateSchema.describe('The fee at which `available` holds.'),
    }),
    z
      .array(
        z.strictObject({
          fee: rateSchema.describe('Highest fee at which `available` holds.'),
          available: nonNegativeSchema.describe('Mass a month, committed tonnes included.'),
        }),
      )
      .min(1),
  ])
  .describe('How the tonnes that are not committed answer the tipping fee.')
  .meta({ id: 'response' });

export const feedSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema.optional(),
    material: idSchema.describe('Id of the material that comes in.'),
    tippingFee: series(rateSchema).describe(
      'What the plant is paid to take it; negative where it pays. Series.',
    ),
    committedFee: series(rateSchema)
      .optional()
      .describe('Fee of the committed mass. The tipping fee if absent. Series.'),
    haulage: series(nonNegativeRateSchema).optional().describe('Cost of fetching it. 0 if absent. Series.'),
    committed: series(nonNegativeSchema)
      .optional()
      .describe('Mass a month that must be taken. 0 if absent. Series.'),
    available: series(nonNegativeSchema).describe(
      'Mass a month that can be had, committed included. Series.',
    ),
    paymentDays: nonNegativeSchema
      .optional()
      .describe("Days from the month's end to the receipt. 0 if absent."),
    response: responseSchema
      .optional()
      .describe('How the tonnes that are not committed answer the tipping fee. Not at all if absent.'),
  })
  .meta({ id: 'feed' });

export const disposalSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema.optional(),
    materials: materialListSchema.describe('Ids of the materials that it takes.'),
    charge: series(rateSchema).describe('Gate fee, rate; negative where the plant is paid. Series.'),
    haulage: series(nonNegativeRateSchema)
      .optional()
      .describe('Cost of bringing it there, rate. 0 if absent. Series.'),
    limit: series(nonNegativeSchema).optional().describe('Mass a month. None if absent. Series.'),
  })
  .meta({ id: 'disposal' });

export const fixedCostSchema = z
  .strictObject({
    name: z.string().min(1).describe('What is paid for.'),
    perMonth: series(z.number()).describe('Currency a month. Series.'),
  })
  .meta({ id: 'fixedCost' });

const KIND = 'Shape of the distribution.';

const sigmaSchema = positiveSchema.describe('Spread of the factor: 0.18 is 18 %.');

export const uncertaintySchema = z
  .strictObject({
    target: z
      .string()
      .regex(/^\//, 'Write a JSON Pointer, which begins with a slash, such as /outlets/turf/price.')
      .describe('JSON Pointer to a number or series; ids may stand for list positions.'),
    distribution: z
      .discriminatedUnion('kind', [
        z.strictObject({ kind: z.literal('lognormal').describe(KIND), sigma: sigmaSchema }),
        z.strictObject({ kind: z.literal('normal').describe(KIND), sigma: sigmaSchema }),
        z.strictObject({
          kind: z.literal('uniform').describe(KIND),
          low: nonNegativeSchema.describe('Lowest factor.'),
          high: nonNegativeSchema.describe('Highest factor.'),
        }),
        z.strictObject({
          kind: z.literal('triangular').describe(KIND),
          low: nonNegativeSchema.describe('Lowest factor.'),
          mode: nonNegativeSchema.describe('Most likely factor.'),
          high: nonNegativeSchema.describe('Highest factor.'),
        }),
      ])
      .describe('Of the factor that multiplies the target.'),
    group: idSchema.optional().describe('Targets of one group move together.'),
    correlation: z.number().min(-1).max(1).optional().describe("With the group's common draw. 1 if absent."),
    eachMonth: z.boolean().optional().describe('A draw of its own for each month. false if absent.'),
  })
  .meta({ id: 'uncertainty' });
