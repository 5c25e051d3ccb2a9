import * as z from 'zod';
import { money } from '../schema/quantities.js';

const count = z.number().int().min(0);

const distribution = z.strictObject({
  count,
  mean: money('Of the sample.'),
  standardDeviation: money('With n − 1.'),
  standardError: money('Of the mean.'),
  lowest: money('Of the sample.'),
  highest: money('Of the sample.'),
  quantiles: z.array(z.strictObject({ share: z.number(), value: money('Quantile.') })),
  worstTwentieth: money('Mean of the worst twentieth.'),
});

const sample = z.strictObject({
  distribution: distribution.optional(),
  regret: z.number().optional().describe('Share of the draws in which not signing was better.'),
  gains: z.array(z.number().nullable()).describe('In the order of draws; null where a draw has none.'),
});

export const uncertain = z.union([
  z.strictObject({
    status: z.enum(['complete', 'partial']),
    seed: z.number(),
    draws: count,
    kept: sample.describe('Both plans kept as made in advance.'),
    remade: sample.describe('Both plans made anew for each draw.'),
    withoutPlan: z.strictObject({ without: count, signed: count, both: count }),
  }),
  z.strictObject({ status: z.enum(['infeasible', 'no certified answer', 'cancelled', 'nothing uncertain']) }),
]);
