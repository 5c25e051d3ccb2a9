import * as z from 'zod';

/** Parts that the documents of several questions have. */

export const unitsSchema = z.strictObject({ mass: z.string(), currency: z.string() });

export const completeness = z
  .enum(['complete', 'partial'])
  .describe('partial: stopped before the end; the figures are those found until then.');

export const moveSchema = z
  .strictObject({
    kind: z.enum(['receive', 'run', 'sell', 'deliver', 'missed', 'dispose', 'stock', 'attended']),
    id: z.string().describe('Of the feed, step, outlet, contract, disposal, material or crew.'),
    window: z.string().optional(),
    month: z.union([z.string(), z.number().int()]).optional(),
    before: z.number(),
    after: z.number(),
  })
  .meta({ id: 'planMove' });
