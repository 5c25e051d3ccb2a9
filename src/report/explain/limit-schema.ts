import * as z from 'zod';
import { monthLabel, text } from '../schema/quantities.js';

export const limit = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('machineHours'), machine: text }),
    z.strictObject({ kind: z.literal('crewHours'), crew: text }),
    z.strictObject({ kind: z.enum(['feedCommitted', 'feedAvailable']), feed: text }),
    z.strictObject({ kind: z.literal('outletTier'), outlet: text, tier: z.number().int() }),
    z.strictObject({
      kind: z.enum(['contractMinimum', 'contractMaximum', 'contractCall', 'termMinimum', 'termMaximum']),
      contract: text,
    }),
    z.strictObject({
      kind: z.literal('quality'),
      contract: text,
      measure: text,
      bound: z.enum(['min', 'max']),
    }),
    z.strictObject({ kind: z.enum(['stockMinimum', 'closingStock', 'stockCapacity']), material: text }),
    z.strictObject({ kind: z.literal('store'), store: text }),
    z.strictObject({ kind: z.literal('disposalLimit'), disposal: text }),
  ])
  .meta({ id: 'limit' });

/** A limit and where it binds. */
export const place = {
  limit,
  month: monthLabel,
  window: text.optional().describe('Of hours only.'),
};
