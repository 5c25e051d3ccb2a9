import * as z from 'zod';
import { OFFER_SETS_FORMAT } from './offer-sets-report.js';
import { money, text } from './schema/quantities.js';

const signed = z.array(
  z.strictObject({
    offer: text,
    share: z.number().describe('1: signed whole; less where the buyer allows a part.'),
  }),
);

const signedSet = z.strictObject({
  offers: signed,
  value: money('Present value of the best plan found with this set.'),
  bound: money('No plan with this set is worth more.'),
  scale: money('What gaps are relative to.'),
});

const open = {
  low: money('Surely not less; with whole shifts.').optional(),
  high: money('Surely not more.').optional(),
};

/** The document that says which of several offers to sign. */
export const offerSetsSchema = z
  .strictObject({
    format: z.literal(OFFER_SETS_FORMAT),
    title: text,
    units: z.strictObject({ mass: z.enum(['tonne', 'short ton']), currency: text }),
    status: z.literal('chosen'),
    best: signedSet,
    runnerUp: signedSet.optional(),
    undecided: z
      .array(signedSet.pick({ offers: true, bound: true }))
      .describe('Other sets that may be better by what whole numbers leave open, the likeliest first.'),
    none: money('With nothing signed; absent where that has no plan.').optional(),
    losses: z.array(
      z.strictObject({
        offer: text,
        loss: money('Without this offer of the best set; absent where there is no plan.').optional(),
        ...open,
      }),
    ),
    costs: z.array(
      z.strictObject({
        offer: text,
        cost: money('Of signing this one too; absent where it cannot be kept.').optional(),
        ...open,
      }),
    ),
    manner: z.enum(['all sets', 'whole numbers']),
    counting: z.enum(['whole', 'in parts']).optional().describe('Of shifts; absent where none are whole.'),
    solves: z.number().int().min(0),
  })
  .describe('Which of several offers to sign. Money is present value.');

/** Its JSON Schema (2020-12). */
export function offerSetsJsonSchema(): Record<string, unknown> {
  return { title: OFFER_SETS_FORMAT, ...z.toJSONSchema(offerSetsSchema, { target: 'draft-2020-12' }) };
}
