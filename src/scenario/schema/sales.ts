import * as z from 'zod';
import {
  dateSchema,
  idSchema,
  materialListSchema,
  nameSchema,
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
    name: nameSchema.optional(),
    material: idSchema.describe('Id of the material that it buys.'),
    price: series(rateSchema)
      .optional()
      .describe('One price; either this (with `limit`) or `tiers`. Series.'),
    limit: series(nonNegativeSchema).optional().describe('Mass a month at `price`. None if absent. Series.'),
    tiers: z
      .array(
        z.strictObject({
          upTo: series(nonNegativeSchema).describe('Cumulative mass of a month. Series.'),
          price: series(rateSchema).describe('Rate; not above that of the tier before. Series.'),
        }),
      )
      .min(1)
      .optional()
      .describe('Prices that fall with volume; nothing sells beyond the last.'),
    freight: series(nonNegativeRateSchema)
      .optional()
      .describe('Rate that the plant pays. 0 if absent. Series.'),
    packing: series(nonNegativeRateSchema)
      .optional()
      .describe('Rate that the plant pays. 0 if absent. Series.'),
    from: dateSchema.optional().describe('First day; always if absent.'),
    to: dateSchema.optional().describe('Last day; always if absent.'),
    paymentDays,
  })
  .meta({ id: 'outlet' });

export const indexSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema.optional(),
    kind: z
      .enum(['price', 'points'])
      .optional()
      .describe('price: values are rates; points: plain figures. price if absent.'),
    base: rateSchema.describe('The value at which a formula pays its base: a rate, or points.'),
    values: series(rateSchema).describe('By month: rates, or points. Series.'),
  })
  .meta({ id: 'index' });

const plainPriceSchema = z.union([
  series(rateSchema),
  z.strictObject({
    byMaterial: z.record(idSchema, series(rateSchema)).describe('A rate or series for each material.'),
  }),
]);

export const priceSchema = z
  .union([
    plainPriceSchema,
    z.strictObject({
      base: plainPriceSchema.describe('The price at which the index stands at its base.'),
      index: idSchema.describe('Id of the index.'),
      passThrough: z
        .number()
        .optional()
        .describe('Share of the movement of the index that is passed on. 1 if absent.'),
      floor: rateSchema.optional().describe('Lowest price, rate. None if absent.'),
      ceiling: rateSchema.optional().describe('Highest price, rate. None if absent.'),
    }),
  ])
  .describe('A rate, a series of rates, { byMaterial }, or an index formula whose base is any of these.')
  .meta({ id: 'contractPrice' });

export const contractSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema.optional(),
    buyer: z.string().min(1).describe('Who takes it.'),
    materials: materialListSchema.describe(
      'Ids of the materials that it takes, in any mix within the quality.',
    ),
    from: dateSchema.describe('First day in force.'),
    to: dateSchema.describe('Last day in force.'),
    price: priceSchema.describe('What the buyer pays for each mass unit that is delivered.'),
    monthly: z
      .strictObject({
        min: series(nonNegativeSchema).optional().describe('Mass a month. None if absent. Series.'),
        max: series(nonNegativeSchema).optional().describe('Mass a month. None if absent. Series.'),
      })
      .optional()
      .describe('Limits of every month, in proportion to the days in force.'),
    term: z
      .strictObject({
        min: nonNegativeSchema.optional().describe('Mass over the whole life. None if absent.'),
        max: nonNegativeSchema.optional().describe('Mass over the whole life. None if absent.'),
        delivered: nonNegativeSchema.optional().describe('Mass delivered before the horizon. 0 if absent.'),
      })
      .optional()
      .describe('Limits of the whole life of the contract.'),
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
        by: z.literal('buyer').describe('Who calls the volume.'),
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
          min: nonNegativeSchema.optional().describe('At least: share, or MJ/kg. None if absent.'),
          max: nonNegativeSchema.optional().describe('At most: share, or MJ/kg. None if absent.'),
        }),
      )
      .optional()
      .describe('Limits on the average by mass of a month. Shares 0 to 1; heatingValue in MJ/kg.'),
    freight: series(nonNegativeRateSchema)
      .optional()
      .describe('Rate that the plant pays. 0 if absent. Series.'),
    packing: series(nonNegativeRateSchema)
      .optional()
      .describe('Rate that the plant pays. 0 if absent. Series.'),
    paymentDays,
  })
  .meta({ id: 'contract' });
