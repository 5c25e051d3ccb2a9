import * as z from 'zod';
import { mass, money, moneyByMass, monthLabel as month, text } from '../schema/quantities.js';
import { infeasible } from './conflict-schema.js';
import { head } from './document-head.js';
import { EXPLANATION_FORMAT } from './explain-document.js';
import { limit, place } from './limit-schema.js';

const rent = z
  .strictObject({
    ...place,
    amount: z.number().describe('The limit now.'),
    oneMore: z
      .number()
      .optional()
      .describe('What a unit more adds, by unit, at the limit; absent where there is no plan with it.'),
    oneLess: z
      .number()
      .optional()
      .describe('What the last unit adds, by unit; absent where there is no plan without it.'),
    unit: text.describe("Money of the month's end by what."),
    holdsFrom: z.number().optional().describe('Down to where oneLess holds; absent: for ever.'),
    holdsTo: z.number().optional().describe('Up to where oneMore holds; absent: for ever.'),
    reach: money('What the side that pays brings over its range.'),
    conflict: z
      .array(z.strictObject(place))
      .optional()
      .describe('Where one side has no plan: what then cannot all hold.'),
  })
  .meta({ id: 'rent' });

const rentOverMonths = z
  .strictObject({
    limit,
    window: text.optional(),
    months: z.number().int(),
    oneMore: z.number().optional(),
    oneLess: z.number().optional(),
    unit: text,
    holdsLess: z.number().optional().describe('By how much it may fall in every month.'),
    holdsMore: z.number().optional().describe('By how much it may rise in every month.'),
  })
  .describe('A unit more or less in every month at once, present value.')
  .meta({ id: 'rentOverMonths' });

const step = z
  .strictObject({
    step: text,
    month,
    window: text,
    mass: mass('Of input in the plan.'),
    worthOut: moneyByMass('Σ yield · worth.'),
    worthIn: moneyByMass('Worth of the input.'),
    power: moneyByMass('Energy at the price of the window.'),
    wear: moneyByMass('Of the machine.'),
    machine: moneyByMass('Rent of the hours.'),
    crew: moneyByMass('Wages and rent of the hours attended.'),
    peak: moneyByMass("Its part in the month's peak."),
    gain: moneyByMass('worthOut − worthIn − power − wear − machine − crew − peak.'),
  })
  .meta({ id: 'stepAccount' });

const what = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('outlet'), outlet: text, tier: z.number().int(), month }),
  z.strictObject({ kind: z.literal('feed'), feed: text, month }),
  z.strictObject({ kind: z.literal('step'), step: text, month }),
  z.strictObject({ kind: z.literal('contract'), contract: text, material: text, month }),
]);

const wouldTake = z
  .strictObject({
    what,
    used: mass('In the plan.'),
    could: mass('At most; absent: no limit.').optional(),
    price: moneyByMass('Or fee, now; absent for steps.').optional(),
    rise: moneyByMass('That it would take; absent where no price would do.').optional(),
    comesInAt: moneyByMass('price + rise.').optional(),
    yield: z
      .strictObject({ output: text, givesWay: text, share: z.number() })
      .optional()
      .describe('Share of the input that would have to become `output` in place of `givesWay`.'),
    forced: z
      .strictObject({ mass: mass('Forced in.'), loss: money('Of the best plan.') })
      .optional()
      .describe('Absent where there is no plan with it.'),
  })
  .meta({ id: 'wouldTake' });

const change = z.strictObject({
  what: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('receive'), feed: text }),
    z.strictObject({ kind: z.literal('run'), step: text }),
    z.strictObject({ kind: z.literal('sell'), outlet: text }),
    z.strictObject({ kind: z.literal('deliver'), contract: text, material: text }),
    z.strictObject({ kind: z.literal('dispose'), disposal: text, material: text }),
    z.strictObject({ kind: z.literal('stock'), material: text }),
    z.strictObject({ kind: z.literal('missed'), contract: text }),
  ]),
  by: mass('Over all months.'),
});

const side = z.strictObject({
  by: z.number().optional().describe('How far it may move; absent: for ever, or as far as makes sense.'),
  changes: z.array(change).describe('What changes first, the largest first.'),
});

const firmness = z
  .strictObject({
    number: z.discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('outletPrice'), outlet: text, tier: z.number().int() }),
      z.strictObject({ kind: z.literal('contractPrice'), contract: text, material: text }),
      z.strictObject({ kind: z.literal('tippingFee'), feed: text }),
      z.strictObject({ kind: z.literal('powerPrice'), window: text }),
      z.strictObject({ kind: z.literal('wage'), crew: text }),
      z.strictObject({ kind: z.literal('wear'), step: text }),
      z.strictObject({ kind: z.literal('disposalCharge'), disposal: text }),
      z.strictObject({ kind: z.literal('demandCharge') }),
      z.strictObject({ kind: z.literal(['outletFreight', 'outletPacking']), outlet: text }),
      z.strictObject({
        kind: z.literal(['contractFreight', 'contractPacking']),
        contract: text,
        material: text,
      }),
      z.strictObject({ kind: z.literal('feedHaulage'), feed: text }),
      z.strictObject({ kind: z.literal('disposalHaulage'), disposal: text, material: text }),
      z.strictObject({ kind: z.literal(['holdingCost', 'closingValue']), material: text }),
      z.strictObject({ kind: z.literal(['shortfallCharge', 'termCharge']), contract: text }),
    ]),
    unit: text,
    now: z.array(z.number()).describe('By month, where it is in force.'),
    less: side,
    more: side,
  })
  .describe('How far a price or cost may move by the same in every month before the plan changes.')
  .meta({ id: 'firmness' });

const explained = z
  .strictObject({
    ...head,
    status: z.literal('explained'),
    staffed: z
      .enum(['whole', 'hourly'])
      .describe('whole: all but `staffing` holds for the staffing of the plan.'),
    presentValue: money('At the start of the horizon.'),
    worth: z.array(z.strictObject({ material: text, byMonth: z.array(moneyByMass("Of the month's end.")) })),
    steps: z.array(step),
    rents: z.array(rent).describe('Ranked by reach.'),
    rentsOverMonths: z.array(rentOverMonths),
    bindingWithoutRent: z.number().int(),
    wouldTake: z.array(wouldTake),
    firmness: z.array(firmness),
    staffing: z
      .strictObject({
        asked: z.array(
          z.strictObject({
            crew: text,
            window: text,
            month,
            shifts: z.number().int(),
            oneMore: money('Present value of a shift more, solved anew.').optional(),
            oneLess: money('Present value of the last shift, solved anew.').optional(),
            within: money('What the whole-number solves leave open.'),
          }),
        ),
        left: z.number().int().describe('Windows for which it was not asked.'),
      })
      .optional(),
    solves: z.number().int().describe("Solves beside the plan's own."),
    unanswered: z.number().int().describe('Questions for which a solve did not certify.'),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'explainedDocument' });

const unexplained = z
  .strictObject({
    ...head,
    status: z.literal('no certified answer'),
    attempts: z.array(z.strictObject({ engine: z.string(), outcome: z.string() })),
  })
  .meta({ id: 'unexplainedDocument' });

/** The document of an explanation: see ExplanationDocument. */
export const explanationSchema = z
  .discriminatedUnion('status', [explained, infeasible, unexplained])
  .describe('Why a plan is as it is, or why there is none and what would have to give.');

/** The JSON Schema (2020-12) of the explanation. */
export function explanationJsonSchema(): Record<string, unknown> {
  return { title: EXPLANATION_FORMAT, ...z.toJSONSchema(explanationSchema, { target: 'draft-2020-12' }) };
}
