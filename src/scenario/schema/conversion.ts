import * as z from 'zod';
import {
  idSchema,
  nameSchema,
  nonNegativeRateSchema,
  nonNegativeSchema,
  positiveSchema,
  series,
  shareSchema,
} from './figures.js';

/** One conversion: input material to output materials, on a machine. */

const circuitSchema = z
  .strictObject({
    passThroughput: series(positiveSchema).describe(
      'What the cutter takes in, mass per machine-hour. Series.',
    ),
    undersize: z.number().gt(0).max(1).describe('Share of one pass that is under the opening.'),
    screenEfficiency: z
      .number()
      .gt(0)
      .max(1)
      .optional()
      .describe('Share of that which the screen lets through. 1 if absent.'),
  })
  .describe('A shredder that works against a screen: the oversize goes back to the cutter.')
  .meta({ id: 'circuit' });

const sharesSchema = z
  .strictObject({
    shares: z.record(idSchema, shareSchema).describe('Output mass by input mass; they add up to 1.'),
  })
  .meta({ id: 'sharesYields' });

const separationSchema = z
  .strictObject({
    separation: z
      .strictObject({
        to: z
          .record(idSchema, z.record(idSchema, shareSchema))
          .describe("By output, the share of each of the input's constituents that goes there."),
        remainder: idSchema.describe('The material that takes the rest.'),
      })
      .describe('Where each constituent of the input goes; the outputs get assays of their own.'),
  })
  .meta({ id: 'separationYields' });

const openingSchema = z
  .union([positiveSchema, z.string().min(1)])
  .describe(
    'Opening in mm, or a sieve by its designation in ISO 3310-1 or ASTM E11: "2.36 mm", "600 um", "No. 30".',
  );

const sizingSchema = z
  .strictObject({
    sizing: z
      .strictObject({
        d63: positiveSchema.describe('mm, the size that 63.2 % of the discharge passes.'),
        n: positiveSchema.describe('Spread: the exponent of the distribution.'),
        decks: z
          .array(
            z.strictObject({
              opening: openingSchema,
              over: idSchema.describe('The material that stays on the deck, or "return" on the first deck.'),
              efficiency: z
                .number()
                .gt(0)
                .max(1)
                .optional()
                .describe('Share of the undersize that passes. 1 if absent.'),
            }),
          )
          .min(1)
          .describe('Coarsest first.'),
        under: idSchema.describe('The material that passes the last deck.'),
        losses: z
          .record(idSchema, shareSchema)
          .optional()
          .describe('By material, the share that is taken off the input first. None if absent.'),
      })
      .describe('Size distribution of the discharge (Rosin and Rammler) and the decks of the screen.'),
  })
  .meta({ id: 'sizingYields' });

export const stepSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema.optional(),
    machine: idSchema.describe('Id of the machine that it runs on.'),
    input: idSchema.describe('Id of the material that it takes in.'),
    throughput: series(positiveSchema)
      .optional()
      .describe('Input mass per machine-hour. Either this or `circuit`. Series.'),
    circuit: circuitSchema
      .optional()
      .describe('A screen that sends the oversize back to the cutter; in place of `throughput`.'),
    energy: series(nonNegativeSchema)
      .optional()
      .describe('kWh per mass unit of input (per pass in a circuit). 0 if absent. Series.'),
    wear: series(nonNegativeRateSchema)
      .optional()
      .describe('Knives and parts, by input (per pass in a circuit). 0 if absent. Series.'),
    yields: z
      .union([sharesSchema, separationSchema, sizingSchema])
      .describe('Exactly one of shares, separation, sizing.'),
  })
  .meta({ id: 'step' });
