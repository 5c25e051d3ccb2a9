import * as z from 'zod';
import { STATEMENT_LINES } from '../planning/plan.js';
import { PLAN_FORMAT } from './plan-document.js';
import { monthRecord } from './schema/month.js';
import {
  certificate,
  namesRecord,
  starterFigure,
  totalRecord,
  warning,
  wholeNumbers,
} from './schema/plan-parts.js';
import { mass, money, moneyByMass, monthLabel, text } from './schema/quantities.js';

const statement = z
  .strictObject({
    lines: z.array(
      z.strictObject({
        line: z.enum(STATEMENT_LINES),
        byMonth: z.array(money('Nominal, month by month.')),
        total: money('Nominal.'),
        presentValue: money('At the start of the horizon.'),
      }),
    ),
    byMonth: z.array(money("The months' margins.")),
    margin: money('The plain sum.'),
    presentValue: money('At the start of the horizon.'),
    scale: money("Sum of the lines' absolute present values; what gaps are relative to."),
  })
  .describe('Money by line: receipts positive, costs negative.')
  .meta({ id: 'statement' });

const cash = z
  .array(
    z.strictObject({
      month: monthLabel.optional().describe('Absent: after the horizon.'),
      receipts: money('Received in the month.'),
      payments: money('Paid in the month.'),
      net: money('Of the month.'),
      balance: money('Since the start.'),
    }),
  )
  .describe('Money in the month in which it is paid.');

const worth = z
  .array(
    z.strictObject({
      material: text,
      byMonth: z.array(moneyByMass("Money of that month's end.")),
      presentValue: z.array(moneyByMass('At the start of the horizon.')),
    }),
  )
  .describe('What one more mass unit of a material adds to the margin, month by month.');

const massBalance = z
  .strictObject({
    in: mass('Received.'),
    out: mass('Sold, delivered, disposed of.'),
    stockChange: mass('Closing less opening.'),
    residual: mass('in − out − stockChange: 0 but for rounding.'),
    materials: z.array(
      z.strictObject({
        material: text,
        received: mass('From feeds.'),
        made: mass('By steps.'),
        used: mass('By steps.'),
        sold: mass('To outlets.'),
        delivered: mass('To contracts.'),
        disposed: mass('To disposals.'),
        opening: mass('Stock at the start.'),
        closing: mass('Stock at the end.'),
        residual: mass('0 but for rounding.'),
      }),
    ),
  })
  .meta({ id: 'massBalance' });

const rung = z
  .strictObject({
    material: text,
    mass: mass('That leaves the plant as this material.'),
    tires: mass('Of whole tire that stops here.'),
    price: money('Receipts less freight and packing.'),
    tippingFee: money('Tipping fees less haulage.'),
    byProducts: money('What was split off on the way, at its worth.'),
    cost: money('Power, wear and wages on the way.'),
    net: money('price + tippingFee + byProducts − cost.'),
  })
  .describe('Money in total; divide by `tires` for what a mass unit of whole tire brings.')
  .meta({ id: 'rung' });

const ladder = z
  .strictObject({
    total: z.array(rung),
    months: z.array(z.array(rung)),
    rest: z.array(money("The months' margins less the rungs' net.")),
  })
  .describe('Where tonnes of whole tire stop, and what they bring there.');

const head = {
  format: z.literal(PLAN_FORMAT),
  title: z.string(),
  units: z.strictObject({
    mass: z.enum(['tonne', 'short ton']).describe('Unit of every mass.'),
    currency: z.string().describe('ISO 4217 code of every amount.'),
  }),
  horizon: z.strictObject({ firstMonth: monthLabel, months: z.number().int().min(1) }),
  discountRate: z.number().describe('A year, effective.'),
  scenarioDigest: z
    .string()
    .optional()
    .describe("SHA-256 of the scenario's text: 'sha256:' and 64 hexadecimal digits."),
  warnings: z.array(warning).describe('What the scenario allows but its owner should know.'),
};

const planned = z
  .strictObject({
    ...head,
    status: z
      .enum(['optimal', 'stopped'])
      .describe('optimal: proved within the tolerance or the gap asked for; stopped: the best plan so far.'),
    presentValue: money('At the start of the horizon.'),
    margin: money('The plain sum.'),
    marginByMass: moneyByMass('margin over mass received; absent where nothing is received.').optional(),
    starterFigures: z
      .array(starterFigure)
      .describe('Published figures that the scenario takes instead of its own.'),
    names: namesRecord,
    statement,
    total: totalRecord,
    months: z.array(monthRecord),
    cash,
    worth,
    massBalance,
    ladder,
    certificate,
    wholeNumbers: wholeNumbers.optional(),
    why: z
      .array(z.string())
      .optional()
      .describe('Why the plan is as it is, in a few sentences; absent where it was not asked.'),
    engine: z.strictObject({
      name: z.string(),
      version: z.string(),
      solves: z.number().int().describe('Solves that the answer took.'),
    }),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'plannedDocument' });

const infeasible = z
  .strictObject({ ...head, status: z.literal('infeasible'), reasons: z.array(z.string()) })
  .meta({ id: 'infeasibleDocument' });

const unanswered = z
  .strictObject({
    ...head,
    status: z.literal('no certified answer'),
    reasons: z.array(z.string()),
    attempts: z.array(z.strictObject({ engine: z.string(), outcome: z.string() })),
  })
  .meta({ id: 'unansweredDocument' });

/** The plan's document: see PlanDocument, with which it agrees by a test of types. */
export const planSchema = z
  .discriminatedUnion('status', [planned, infeasible, unanswered])
  .describe('An answer to the question which plan earns the most, or why there is none.');

/** The JSON Schema (2020-12) of the plan's document. */
export function planJsonSchema(): Record<string, unknown> {
  return { title: PLAN_FORMAT, ...z.toJSONSchema(planSchema, { target: 'draft-2020-12' }) };
}
