import * as z from 'zod';
import { FEE_FORMAT } from './fee-report.js';
import { completeness, unitsSchema } from './quantities-schema.js';

const feed = z
  .strictObject({
    feed: z.string(),
    fee: z.number().describe('The best, as the scenario writes it.'),
    feeByMass: z.number().describe('Currency per mass unit.'),
    range: z.strictObject({ low: z.number(), high: z.number() }),
    tonnes: z.number().describe('Mass received at it over the horizon.'),
    income: z.number().describe('What it pays, plain money.'),
    standing: z
      .enum(['inside', 'lower end', 'upper end', 'no response', 'inelastic', 'committed pay', 'listed'])
      .describe(
        'no response, inelastic, committed pay: income rises with the fee without end, for this reason; only the range limits it.',
      ),
    decline: z
      .strictObject({ some: z.number().optional(), all: z.number().optional() })
      .optional()
      .describe('Fees by mass below which it is better to decline some, or all, of what is not committed.'),
    worth: z.array(z.number()).describe("Of a mass unit at the gate, money of each month's end."),
    curve: z.array(
      z.strictObject({
        fee: z.number(),
        value: z.number().optional().describe('Present value; absent where there is no plan.'),
        tonnes: z.number().optional(),
        income: z.number().optional(),
      }),
    ),
  })
  .meta({ id: 'feedFee' });

export const feeSchema = z
  .strictObject({
    format: z.literal(FEE_FORMAT),
    title: z.string(),
    units: unitsSchema,
    status: completeness,
    own: z
      .number()
      .optional()
      .describe('Present value at the fees as they are; absent where there is no plan.'),
    value: z.number().describe('Present value at the best fees.'),
    bound: z
      .number()
      .optional()
      .describe('No fees in the ranges earn more: proved. Absent where it was stopped before anything was.'),
    gap: z.number().optional().describe('(bound − value) / scale'),
    isBoundInParts: z
      .literal(true)
      .optional()
      .describe('The bound takes whole shifts and windows in parts: it may lie above what any fees earn.'),
    scale: z.number(),
    feeds: z.array(feed),
    solves: z.number().int(),
  })
  .describe('The tipping fees that earn most, with the response of each feed.')
  .meta({ id: 'feeDocument' });
