import * as z from 'zod';
import { completeness, moveSchema, unitsSchema } from './quantities-schema.js';
import { TORNADO_FORMAT } from './tornado-report.js';

const side = z
  .discriminatedUnion('status', [
    z.strictObject({
      status: z.literal('planned'),
      at: z.number(),
      value: z.number().describe('Present value of the best plan.'),
      lossUnchanged: z
        .number()
        .optional()
        .describe(
          'What the plan as it is would lose if it were not changed; absent where it cannot be kept.',
        ),
      moves: z.array(moveSchema),
      change: z.string().describe('In words.'),
    }),
    z.strictObject({
      status: z.enum(['infeasible', 'no certified answer']),
      at: z.number(),
      change: z.string(),
    }),
    z.strictObject({
      status: z.literal('invalid'),
      at: z.number(),
      change: z.string(),
      problems: z.array(z.looseObject({})),
    }),
  ])
  .meta({ id: 'tornadoSide' });

export const tornadoSchema = z
  .strictObject({
    format: z.literal(TORNADO_FORMAT),
    title: z.string(),
    units: unitsSchema,
    status: completeness,
    base: z.number().describe('Present value of the scenario as it is.'),
    bars: z
      .array(
        z.strictObject({
          name: z.string(),
          pointers: z.array(z.string()),
          kind: z.enum(['value', 'factor']),
          own: z.number().optional().describe('Where the scenario stands.'),
          low: side,
          high: side,
          swing: z.number().optional().describe('|value at high − value at low|'),
        }),
      )
      .describe('Widest swing first.'),
    solves: z.number().int(),
  })
  .describe('How much each number matters.')
  .meta({ id: 'tornadoDocument' });
