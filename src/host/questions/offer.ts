import * as z from 'zod';
import { offerSchema } from '../../report/offer-schema.js';
import { answerOffer, WHOLE_SECONDS } from '../answer-offer.js';
import { gapSchema } from './gap.js';
import { question } from './question.js';
import { replyKind } from './reply-kind.js';

export const offerQuestion = question({
  name: 'offer',
  summary: "Whether to sign a buyer's offer, and at which price",
  options: z.strictObject({
    offer: z
      .union([z.string(), z.custom<object>(isObject, 'Write a contract')])
      .describe("The id of one of the scenario's offers, or a contract itself."),
    parts: z
      .array(z.enum(['ladder', 'displaced', 'terms', 'calls']))
      .optional()
      .describe('What to answer beside verdict, gain and break-even. All if absent.'),
    margin: z.number().optional().describe('Gain, present value, that signing must leave. 0 if absent.'),
    priceLimit: z
      .number()
      .optional()
      .describe("The highest price that the buyer would pay, in the offer's own unit."),
    counting: z
      .enum(['whole', 'in parts'])
      .optional()
      .describe(
        'Whole shifts as they are, in verdict, gain, break-even and displacement; or in parts throughout. whole if absent.',
      ),
    volumes: z
      .array(z.number().min(0))
      .max(50)
      .optional()
      .describe('Firm monthly volumes to quote a price for too.'),
    change: z
      .custom<object>(isObject, 'Write a merge patch')
      .optional()
      .describe('A merge patch (RFC 7396) on the offer: what it would be worth with other terms.'),
    uncertain: z
      .strictObject({
        draws: z.number().int().min(1).max(5000),
        seed: z
          .number()
          .int()
          .min(0)
          .max(2 ** 31 - 1),
      })
      .optional()
      .describe('The gain under the uncertainty of the scenario, in so many draws from this seed.'),
    gap: gapSchema.optional(),
  }),
  example: { scenario: 'twelve-months', offer: 'play-barns', parts: [], counting: 'in parts' },
  answer: offerSchema,
  pace: 'short',
  keepsBest: true,
  ask: (
    { document },
    { offer, parts = PARTS, margin = 0, counting = 'whole', volumes = [], gap, ...rest },
    solver,
    { seconds, cancelled },
  ) => {
    const source = typeof offer === 'string' ? { id: offer } : { document: offer };
    const asked = { source, parts, margin, counting, volumes, ...rest };
    const wholeSeconds = Math.min(WHOLE_SECONDS, PART_FOR_WHOLE * seconds);
    const limits = { ...(gap === undefined ? {} : { gap }), wholeSeconds, cancelled };
    const reply = answerOffer(document, asked, solver, limits);
    if (reply.kind === 'problems') return reply;
    return { kind: replyKind(reply.document.status), document: reply.document };
  },
});

/** Of the time for an answer; the rest is for what counts in parts. */
const PART_FOR_WHOLE = 0.6;

const PARTS = ['ladder', 'displaced', 'terms', 'calls'] as const;

function isObject(value: unknown): boolean {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
