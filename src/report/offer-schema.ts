import * as z from 'zod';
import { VERDICTS } from '../analysis/offer/offer-answer.js';
import { RATE_BASES } from '../scenario/schema/figures.js';
import { displaced, displacedByVolume } from './offer/displaced-schema.js';
import { uncertain } from './offer/uncertain-schema.js';
import { OFFER_FORMAT } from './offer-document.js';
import { certificate, namesRecord, place } from './schema/plan-parts.js';
import { mass, money, moneyByMass, monthLabel, text } from './schema/quantities.js';

const count = z.number().int().min(0);

const NO_BREAK_EVEN = [
  'cannot be served',
  'nothing can be delivered',
  'floor',
  'any price',
  'ceiling',
  'falling price',
  'not in force',
  'no common price',
  'no plan without it',
] as const;

const price = (words: string) => z.number().describe(`In the unit of the offer's own price. ${words}`);

const breakEven = z
  .strictObject({
    kind: z.enum(['price', 'base', 'factor']).describe('Which number of the offer it is.'),
    per: z.enum(RATE_BASES).optional().describe("Basis of the offer's price; absent for a factor."),
    own: price('As offered.'),
    price: price('The lowest above which signing gains; absent where there is none.').optional(),
    interval: z
      .strictObject({
        low: price('Surely no gain here; absent where open.').optional(),
        high: price('Surely none lost; absent where open.').optional(),
      })
      .optional()
      .describe('With whole numbers, from the gaps of both plans.'),
    reason: z.enum(NO_BREAK_EVEN).optional().describe('Why there is none.'),
    solves: count,
  })
  .meta({ id: 'breakEven' });

const limit = z
  .strictObject({
    kind: z.enum(['limit', 'nothing left']).describe('nothing left: all that it took is taken away already.'),
    at: place,
    months: z.array(monthLabel),
  })
  .meta({ id: 'offerLimit' });

const head = {
  format: z.literal(OFFER_FORMAT),
  title: text,
  units: z.strictObject({ mass: z.enum(['tonne', 'short ton']), currency: text }),
  offer: z.strictObject({ id: text, name: text, buyer: text }),
};

const judged = z
  .strictObject({
    ...head,
    status: z.literal('judged'),
    verdict: z.enum(VERDICTS),
    above: price('Take it above this price.').optional(),
    upTo: mass("A firm monthly volume pays up to this at the offer's own price.").optional(),
    reasons: z.array(z.enum([...NO_BREAK_EVEN, 'price', 'price limit', 'gap'])),
    askedMargin: money('Gain that signing was asked to leave.'),
    gain: z
      .strictObject({
        presentValue: money('Against the best plan without the offer.'),
        low: money('The gain is not below this.'),
        high: money('Nor above this.'),
        margin: money('Plain sum.').optional(),
        byMonth: z.array(money('Margin of the month.')).optional(),
      })
      .optional(),
    breakEven,
    alone: z.array(breakEven.extend({ material: text })).describe("Each material's price alone."),
    calls: z.array(
      z.strictObject({
        call: z.enum(['expected', 'minimum', 'maximum']),
        gain: money('At the own price.').optional(),
        breakEven,
      }),
    ),
    ladder: z
      .array(
        z.strictObject({
          monthlyMin: mass('Firm, of a full month; end of a stretch.'),
          breakEven: z.number().optional().describe('In the unit of `quote.unit`, for the whole volume.'),
          marginal: z.number().optional().describe('The same, of the last mass unit.'),
          flatPrice: moneyByMass('The break-even as one price for all months.'),
          receipts: money('Present value that leaves the plant as well off.'),
          bottlenecks: z.array(limit).describe('What is used up where the stretch begins.'),
        }),
      )
      .optional(),
    quote: z
      .strictObject({
        exact: z.boolean(),
        unit: z.strictObject({ kind: z.enum(['price', 'base', 'factor']), per: text.optional() }),
        largest: z.strictObject({ volume: mass('Of a full month.'), limits: z.array(limit) }),
        prices: z.array(
          z.strictObject({
            volume: mass('Of a full month.'),
            price: z.number().optional(),
            flatPrice: moneyByMass('With the asked margin.'),
          }),
        ),
      })
      .optional(),
    displacedByVolume: displacedByVolume.optional(),
    servedShare: z.number().optional().describe('Where it cannot be served: the share that can be.'),
    conflict: z
      .array(
        z.looseObject({
          kind: text,
          month: monthLabel,
          unit: text,
          amount: z.number(),
        }),
      )
      .optional()
      .describe('Promises and limits that cannot all hold; without any one of them the others can.'),
    displaced: displaced.optional(),
    terms: z.array(
      z.strictObject({
        change: text,
        measure: text.optional(),
        worth: money('More, with this term changed; absent where it cannot be kept.').optional(),
        within: money('What whole numbers leave open.').optional(),
      }),
    ),
    uncertain: uncertain.optional(),
    certificate: z.strictObject({ without: certificate.optional(), with: certificate.optional() }),
    counting: z
      .enum(['whole', 'in parts'])
      .optional()
      .describe(
        'Shifts and windows of verdict, gain, break-even and displacement; absent where none are whole.',
      ),
    detailCounting: z
      .enum(['whole', 'in parts'])
      .optional()
      .describe(
        "The same of the ladder, the quotes, the terms, the calls, the draws and each material's price alone.",
      ),
    names: namesRecord,
    solves: z.strictObject({
      verdict: count,
      breakEven: count,
      displaced: count,
      alone: count,
      ladder: count,
      terms: count,
      calls: count,
      total: count,
    }),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'judgedOffer' });

const unjudged = z
  .strictObject({ ...head, status: z.enum(['infeasible', 'no certified answer', 'cancelled']) })
  .meta({ id: 'unjudgedOffer' });

/** The document of a judged offer. */
export const offerSchema = z
  .discriminatedUnion('status', [judged, unjudged])
  .describe('What to say to a buyer, and why. Money is present value unless it says margin.');

/** Its JSON Schema (2020-12). */
export function offerJsonSchema(): Record<string, unknown> {
  return { title: OFFER_FORMAT, ...z.toJSONSchema(offerSchema, { target: 'draft-2020-12' }) };
}
