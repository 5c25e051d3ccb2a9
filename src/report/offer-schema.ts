import * as z from 'zod';
import { EFFECTS } from '../analysis/comparison/bridge.js';
import { VERDICTS } from '../analysis/offer/offer-answer.js';
import { RATE_BASES } from '../scenario/schema/figures.js';
import { OFFER_FORMAT } from './offer-document.js';
import { certificate, namesRecord, place } from './schema/plan-parts.js';
import { hours, mass, money, moneyByMass, monthLabel, text } from './schema/quantities.js';

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

const displaced = z
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

const displacedByVolume = z
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

const uncertain = z.union([
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
      .describe("The same of the ladder, the quotes, the terms, the calls and each material's price alone."),
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
