import * as z from 'zod';

/** Building blocks of the format: identifiers, dates, figures with units, rates and series. */

export const idSchema = z
  .string()
  .regex(
    /^[a-z][a-z0-9-]{0,39}$/,
    'Write a lower-case letter, then up to 39 lower-case letters, digits or hyphens, such as car-tires.',
  )
  .describe('Identifier: a lower-case letter, then up to 39 lower-case letters, digits or hyphens.');

export const nameSchema = z.string().min(1).describe('Name for people. The id if absent.');

export const dateSchema = z.iso
  .date('Write a date as YYYY-MM-DD, such as 2027-01-31.')
  .regex(/^[1-9]/, 'Write a date of the year 1000 or later, as YYYY-MM-DD.')
  .describe('Calendar date, YYYY-MM-DD.');

export const monthSchema = z
  .string()
  .regex(/^[12]\d{3}-(0[1-9]|1[0-2])$/, 'Write a month as YYYY-MM, such as 2027-01.')
  .describe('Calendar month, YYYY-MM.');

/** Ids of materials, at least one. */
export const materialListSchema = z.array(idSchema).min(1);

export const numberSchema = z.number();
export const nonNegativeSchema = z.number().nonnegative();
export const positiveSchema = z.number().positive();
export const shareSchema = z.number().min(0).max(1);

export const RATE_BASES = ['tonne', 'short ton', 'kg', 'lb', 'tire', 'GJ', 'MMBtu'] as const;

/** Money by an amount of material: a number is currency per mass unit of the scenario. */
export const rateSchema = z
  .union([
    z.number(),
    z.strictObject({
      amount: z.number().describe('Currency per `per`.'),
      per: z
        .enum(RATE_BASES)
        .describe('Basis: a mass, a tire (needs tireMass), or lower heating value (needs heatingValue).'),
    }),
  ])
  .describe('Rate: currency per mass unit of the scenario, or { amount, per }.')
  .meta({ id: 'rate' });

export const nonNegativeRateSchema = z
  .union([
    z.number().nonnegative(),
    z.strictObject({
      amount: z.number().nonnegative().describe('Currency per `per`, 0 or more.'),
      per: z
        .enum(RATE_BASES)
        .describe('Basis: a mass, a tire (needs tireMass), or lower heating value (needs heatingValue).'),
    }),
  ])
  .describe('Rate, 0 or more: currency per mass unit of the scenario, or { amount, per }.')
  .meta({ id: 'costRate' });

/** One value for all months, an array with one value a month, or values from a month on that cover the horizon. */
export function series<S extends z.ZodType>(value: S) {
  return z.union([
    value,
    z.array(value).min(1).describe('One value for each month of the horizon.'),
    z
      .strictObject({
        from: monthSchema.describe('Month of the first value, YYYY-MM.'),
        values: z.array(value).min(1).describe('One value a month.'),
      })
      .describe('One value a month from the month `from` on; must cover the horizon.'),
  ]);
}

export type Rate = z.infer<typeof rateSchema>;
export type RateBasis = (typeof RATE_BASES)[number];
export type Series<T> = T | readonly T[] | { readonly from: string; readonly values: readonly T[] };
