import * as z from 'zod';

const pointers = z
  .array(z.string())
  .min(1)
  .max(100)
  .describe(
    'JSON Pointers to numbers, or series of them; several are tied together. Ids may stand for list positions.',
  );

/** A number of a scenario, or several that are tied together. */
export const parameterSchema = z
  .strictObject({
    pointers,
    kind: z.enum(['value', 'factor']).describe('value: the number itself; factor: one on the number.'),
  })
  .meta({ id: 'parameter' });
