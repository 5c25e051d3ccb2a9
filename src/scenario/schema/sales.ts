import * as z from 'zod';
import {
  dateSchema,
  idSchema,
  nonNegativeRateSchema,
  nonNegativeSchema,
  rateSchema,
  series,
} from './figures.js';

/** Who buys: spot outlets, contracts, and the indices that prices follow. */

const paymentDays = nonNegativeSchema
  .optional()
  .describe("Days from the month's end to the receipt. 0 if absent.");

export const outletSchema = z
  .strictObject({
    id: idSchema,
    name: z.string().min(1).optional(),
    material: idSchema,
    price: series(rateSchema)
      .optional()
      .describe('One price; either this (with `limit`) or `tiers`. Series.'),
    limit: series(nonNegativeSchema).optional().describe('Mass a month at `price`. None if absent. Series.'),
    tiers: z
      .array(
        z.strictObject({
          upTo: series(nonNegativeSchema).describe('Cumulative mass of a month. Series.'),
          price: series(rateSchema).describe('Series.'),
        }),
      )
      .min(1)
      .optional()
      .describe('Prices that fall with volume; nothing sells beyond the last.'),
    freight: series(nonNegativeRateSchema).optional().describe('0 if absent. Series.'),
    packing: series(nonNegativeRateSchema).optional().describe('0 if absent. Series.'),
    from: dateSchema.optional().describe('First day; always if absent.'),
    to: dateSchema.optional().describe('Last day; always if absent.'),
    paymentDays,
  })
  .meta({ id: 'outlet' });

export const indexSchema = z
  .strictObject({
    id: idSchema,
    name: z.string().min(1).optional(),
    kind: z
      .enum(['price', 'points'])
      .optional()
      .describe('price: values are rates; points: plain figures. price if absent.'),
    base: rateSchema.describe('The value at which a formula pays its base.'),
    values: series(rateSchema).describe('Series.'),
  })
  .meta({ id: 'index' });

const plainPriceSchema = z.union([
  series(rateSchema),
  z.strictObject({ byMaterial: z.record(idSchema, series(rateSchema)) }),
]);

export const priceSchema = z
  .union([
    plainPriceSchema,
    z.strictObject({
      base: plainPriceSchema,
      index: idSchema,
      passThrough: z
        .number()
        .optional()
        .describe('Share of the movement of the index that is passed on. 1 if absent.'),
      floor: rateSchema.optional(),
      ceiling: rateSchema.optional(),
    }),
  ])
  .describe('A rate, a series of rates, { byMaterial }, or an index formula whose base is any of these.')
  .meta({ id: 'contractPrice' });

export const contractSchema = z
  .strictObject({
    id: idSchema,
    name: z.string().min(1).optional(),
    buyer: z.string().min(1),
    materials: z.array(idSchema).min(1),
    from: dateSchema.describe('First day in force.'),
    to: dateSchema.describe('Last day in force.'),
    price: priceSchema,
    monthly: z
      .strictObject({
        min: series(nonNegativeSchema).optional().describe('Mass a month. None if absent. Series.'),
        max: series(nonNegativeSchema).optional().describe('Mass a month. None if absent. Series.'),
      })
      .optional(),
    term: z
      .strictObject({
        min: nonNegativeSchema.optional().describe('Mass over the whole life. None if absent.'),
        max: nonNegativeSchema.optional().describe('Mass over the whole life. None if absent.'),
        delivered: nonNegativeSchema.optional().describe('Mass delivered before the horizon. 0 if absent.'),
      })
      .optional(),
    shortfall: z
      .strictObject({
        charge: series(nonNegativeRateSchema).describe('By mass missed in a month. Series.'),
        termCharge: nonNegativeRateSchema
          .optional()
          .describe('By mass missed over the term. As `charge` if absent.'),
      })
      .optional()
      .describe('What a missed tonne costs. Absent: the minimum is hard.'),
    call: z
      .strictObject({
        by: z.literal('buyer'),
        expected: series(nonNegativeSchema).describe('Mass a month. Series.'),
      })
      .optional()
      .describe('The buyer calls the volume. Absent: the plant chooses between minimum and maximum.'),
    quality: z
      .array(
        z.strictObject({
          measure: z
            .union([z.literal('heatingValue'), idSchema])
            .describe('A measure of the assay, or heatingValue.'),
          min: nonNegativeSchema.optional(),
          max: nonNegativeSchema.optional(),
        }),
      )
      .optional()
      .describe('Limits on the average by mass of a month. Shares 0 to 1; heatingValue in MJ/kg.'),
    freight: series(nonNegativeRateSchema).optional().describe('0 if absent. Series.'),
    packing: series(nonNegativeRateSchema).optional().describe('0 if absent. Series.'),
    paymentDays,
  })
  .meta({ id: 'contract' });
