import * as z from 'zod';
import { EFFECTS } from '../../analysis/comparison/bridge.js';
import { hours, mass, money, monthLabel, text } from '../schema/quantities.js';

const effect = z.enum(EFFECTS);

const move = z.strictObject({
  kind: z.enum(['receive', 'run', 'sell', 'deliver', 'missed', 'dispose', 'stock', 'attended']),
  id: text,
  before: z.number(),
  after: z.number(),
  window: text.optional(),
  month: z.number().int().optional(),
});

const machineMove = z.strictObject({ machine: text, before: hours('Without.'), after: hours('With.') });

export const displaced = z
  .strictObject({
    bridge: z.strictObject({
      from: money('Margin without the offer, plain sum.'),
      to: money('Margin with it.'),
      effects: z.array(
        z.strictObject({
          effect,
          amount: money('The effects add up to the difference.'),
          parts: z.array(z.strictObject({ line: text, id: text, amount: money('Of the effect.') })),
        }),
      ),
    }),
    definitions: z.record(effect, z.string()),
    moves: z.array(move).describe('Mass, or hours of crews, over the horizon; before: without the offer.'),
    machines: z.array(machineMove),
    months: z.array(
      z.strictObject({
        month: monthLabel,
        before: money('Margin.'),
        after: money('Margin.'),
        effects: z.array(z.strictObject({ effect, amount: money('Of the month.') })),
        moves: z.array(move),
        machines: z.array(machineMove),
      }),
    ),
  })
  .meta({ id: 'displaced' });

export const displacedByVolume = z
  .strictObject({
    volumes: z
      .array(mass('Firm, of a full month.'))
      .describe('0 and the ends of the stretches of the ladder, rising.'),
    delivered: z.array(mass('Delivered on the offer over the horizon.')).describe('At each volume.'),
    sources: z
      .array(
        z.strictObject({
          kind: z
            .enum(['sell', 'deliver', 'dispose', 'stock', 'receive'])
            .describe(
              'sell: an outlet; deliver: another contract; dispose: a disposal; stock: what is kept of a material at the end of the horizon; receive: a feed.',
            ),
          id: text.describe('Of the outlet, contract, disposal, material or feed; its name is in `names`.'),
          change: z
            .array(mass('Over the horizon; below 0: less than without the offer.'))
            .describe('Plan at the volume less plan at volume 0, one for each of `volumes`.'),
        }),
      )
      .describe('What gives the most at the largest volume first.'),
  })
  .describe(
    'Where the tonnes of a firm volume come from. At each volume: delivered = Σ change of `receive` − Σ change of all others. Between two volumes the figures run straight, exactly so where `quote.exact`.',
  )
  .meta({ id: 'displacedByVolume' });
