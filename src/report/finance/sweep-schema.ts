import * as z from 'zod';

/** The document of a sweep, `cutpoint-sweep/1`. Money is present value in the scenario's currency. */

const problem = z.strictObject({
  pointer: z.string(),
  code: z.string(),
  message: z.string(),
  remedy: z.string(),
});

const move = z.strictObject({
  kind: z.enum(['receive', 'run', 'sell', 'deliver', 'missed', 'dispose', 'stock', 'attended']),
  id: z.string().describe('Of the feed, step, outlet, contract, disposal, material or crew.'),
  window: z.string().optional(),
  month: z.string().optional(),
  before: z.number(),
  after: z.number(),
});

const range = z.strictObject({
  from: z.number(),
  to: z.number(),
  status: z.enum(['answered', 'infeasible', 'invalid', 'not asked', 'no certified answer']),
  reason: z.string().optional().describe('Why there is no answer, in words.'),
  problems: z.array(problem).optional(),
});

const byId = z.record(z.string(), z.number());

const tonnes = z
  .strictObject({
    received: byId.describe('By feed.'),
    run: byId.describe('Input, by step.'),
    sold: byId.describe('On the spot, by outlet.'),
    delivered: byId.describe('By contract.'),
    disposed: byId.describe('By disposal.'),
    rungs: byId.describe('Sold, delivered or disposed of, by material at which a tonne of tire may stop.'),
  })
  .describe('Mass over the whole horizon, in the unit of mass.')
  .meta({ id: 'planTonnes' });

const point = z.strictObject({
  at: z.number(),
  value: z.number().describe('Present value of the best plan.'),
  slopeLeft: z
    .number()
    .nullable()
    .describe('Currency by unit of the number; null at an end, or where not known.'),
  slopeRight: z.number().nullable(),
  kind: z
    .enum(['end', 'breakpoint', 'plan change', 'sample'])
    .describe('plan change: the plan turns there although the value runs straight on.'),
  tonnesLeft: tonnes
    .nullable()
    .describe(
      'Of the best plan just left of the point. From the point before, of its tonnesRight, to this one the tonnes run straight where the curve is exact. Null at the first point, and where stopped early.',
    ),
  tonnesRight: tonnes
    .nullable()
    .describe('Just right of the point: another plan where the plan jumps. Null at the last point.'),
  change: z.string().describe('What changes in the plan there, in words; empty where nothing does.'),
  moves: z
    .array(move)
    .describe('The same as data: totals where the plan jumps, by unit of the number where it turns.'),
  manner: z.enum(['jump', 'turn']).optional(),
  onward: z
    .string()
    .optional()
    .describe('How the plan moves up to the next point although the value runs straight.'),
});

const curve = {
  status: z.enum(['complete', 'partial']),
  exact: z.boolean().describe('Every point and every straight line between two is exact.'),
  reach: z
    .enum(['nothing', 'objective', 'right sides', 'both', 'matrix', 'curved', 'whole numbers'])
    .describe('What the number reaches in the program: decides how the curve is found.'),
  ranges: z.array(range),
  points: z.array(point),
  error: z
    .strictObject({ kind: z.enum(['proved', 'measured']), amount: z.number() })
    .optional()
    .describe('How far the curve may be from the lines between the points; measured is not proved.'),
  planGap: z
    .number()
    .optional()
    .describe(
      'Currency: how far a plan with whole shifts may lie below the best one, the most at any point.',
    ),
  solves: z.number().int(),
  planSolves: z.number().int().describe('Further solves, to tell the plans apart.'),
  scale: z.number().describe('Sum of the absolute money terms: what tolerances are relative to.'),
};

const of = z.strictObject({
  pointers: z.array(z.string()),
  kind: z.enum(['value', 'factor']),
  unit: z.string(),
  own: z.number().optional().describe('Where the scenario stands.'),
});

export const sweepSchema = z
  .strictObject({
    format: z.literal('cutpoint-sweep/1'),
    title: z.string(),
    units: z.strictObject({ mass: z.string(), currency: z.string() }),
    of,
    from: z.number(),
    to: z.number(),
    ...curve,
  })
  .describe('Present value of the best plan as a function of one number, or of several tied together.')
  .meta({ id: 'sweepDocument' });

export const sweepMapSchema = z
  .strictObject({
    format: z.literal('cutpoint-sweep-map/1'),
    title: z.string(),
    units: z.strictObject({ mass: z.string(), currency: z.string() }),
    of,
    by: of,
    from: z.number(),
    to: z.number(),
    rows: z.array(z.strictObject({ by: z.number(), ...curve })),
  })
  .describe('The same for several values of a second number: one row, one curve.')
  .meta({ id: 'sweepMapDocument' });

export type SweepTonnes = z.infer<typeof tonnes>;
export type SweepDocument = z.infer<typeof sweepSchema>;
export type SweepMapDocument = z.infer<typeof sweepMapSchema>;
