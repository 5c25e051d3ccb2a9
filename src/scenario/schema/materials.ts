import * as z from 'zod';
import {
  idSchema,
  materialListSchema,
  nameSchema,
  nonNegativeRateSchema,
  nonNegativeSchema,
  positiveSchema,
  rateSchema,
  series,
  shareSchema,
} from './figures.js';

/** What has a mass: materials, their stocks, and the rooms that they share. */

export const FORMS = [
  'whole',
  'shred',
  'chip',
  'wire-free',
  'granulate',
  'powder',
  'steel',
  'fiber',
  'residue',
  'other',
] as const;

export const assaySchema = z
  .record(idSchema, shareSchema)
  .describe('Measures by mass, 0 to 1: { "steel": 0.15, "fiber": 0.05 }.')
  .meta({ id: 'assay' });

const starterSchema = z
  .strictObject({ from: idSchema })
  .describe('A published figure by its id in the table of starter figures.')
  .meta({ id: 'starter' });

export const stockSchema = z
  .strictObject({
    capacity: series(nonNegativeSchema).optional().describe('Mass. Unlimited if absent. Series.'),
    min: series(nonNegativeSchema).optional().describe('Mass at every month end. 0 if absent. Series.'),
    opening: nonNegativeSchema.optional().describe('Mass at the start. 0 if absent.'),
    closing: z
      .strictObject({
        min: nonNegativeSchema.optional().describe('Mass at the end, at least. The opening stock if absent.'),
        value: rateSchema.optional().describe('What a tonne more at the end is worth. 0 if absent.'),
      })
      .optional()
      .describe('What stays at the end of the horizon.'),
    holdingCost: series(nonNegativeRateSchema)
      .optional()
      .describe("A month, on the month's closing stock. 0 if absent. Series."),
  })
  .meta({ id: 'stock' });

export const materialSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema.optional(),
    form: z.enum(FORMS).describe('Where the material stands on the ladder.'),
    tireMass: z.union([positiveSchema, starterSchema]).optional().describe('kg a tire.'),
    heatingValue: z.union([positiveSchema, starterSchema]).optional().describe('MJ/kg, lower heating value.'),
    assay: z
      .union([assaySchema, starterSchema])
      .optional()
      .describe('What it is made of, shares by mass. Derived from the steps that make it if absent.'),
    stock: stockSchema.optional().describe('A material without it is never held.'),
  })
  .meta({ id: 'material' });

export const storeSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema.optional(),
    materials: materialListSchema.describe('Ids of the materials that share the room; each needs a stock.'),
    capacity: nonNegativeSchema.describe('Mass of all its materials together, at every month end.'),
    note: z.string().optional().describe('For people; not read.'),
  })
  .meta({ id: 'store' });
