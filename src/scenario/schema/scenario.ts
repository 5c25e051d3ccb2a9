import * as z from 'zod';
import { stepSchema } from './conversion.js';
import { monthSchema, numberSchema } from './figures.js';
import { materialSchema, storeSchema } from './materials.js';
import { crewSchema, machineSchema, operationSchema } from './operation.js';
import { contractSchema, indexSchema, outletSchema } from './sales.js';
import { disposalSchema, feedSchema, fixedCostSchema, uncertaintySchema } from './supply.js';

export const SCENARIO_FORMAT = 'cutpoint-scenario/1';

export const MAX_MONTHS = 60;

/** A plant, its market and its promises over some months: what the user writes. */
export const scenarioSchema = z
  .strictObject({
    $schema: z.string().optional().describe('For editors; not read.'),
    format: z.literal(SCENARIO_FORMAT),
    title: z.string().min(1),
    note: z.string().optional(),
    units: z.strictObject({
      mass: z.enum(['tonne', 'short ton']).describe('Unit of every mass.'),
      currency: z
        .string()
        .regex(/^[A-Z]{3}$/, 'Write the three capital letters of the currency, such as EUR or USD.')
        .describe('ISO 4217 code.'),
    }),
    horizon: z.strictObject({
      firstMonth: monthSchema,
      months: z.number().int().min(1).max(MAX_MONTHS),
    }),
    discountRate: numberSchema.gt(-1).optional().describe('A year, effective. 0 if absent.'),
    operation: operationSchema,
    materials: z.array(materialSchema).min(1),
    stores: z.array(storeSchema).optional(),
    feeds: z.array(feedSchema).min(1),
    crews: z.array(crewSchema).optional(),
    machines: z.array(machineSchema).min(1),
    steps: z.array(stepSchema).min(1),
    outlets: z.array(outletSchema).optional(),
    indices: z.array(indexSchema).optional(),
    contracts: z.array(contractSchema).optional(),
    offers: z
      .array(contractSchema)
      .optional()
      .describe('Contracts that have not been signed; not part of the plan.'),
    disposals: z.array(disposalSchema).optional(),
    fixedCosts: z.array(fixedCostSchema).optional(),
    uncertainty: z.array(uncertaintySchema).optional(),
  })
  .meta({ id: 'scenario' });

export type Scenario = z.infer<typeof scenarioSchema>;
export type Material = Scenario['materials'][number];
export type Store = NonNullable<Scenario['stores']>[number];
export type Feed = Scenario['feeds'][number];
export type Crew = NonNullable<Scenario['crews']>[number];
export type Machine = Scenario['machines'][number];
export type Step = Scenario['steps'][number];
export type Outlet = NonNullable<Scenario['outlets']>[number];
export type Index = NonNullable<Scenario['indices']>[number];
export type Contract = NonNullable<Scenario['contracts']>[number];
export type Disposal = NonNullable<Scenario['disposals']>[number];
export type FixedCost = NonNullable<Scenario['fixedCosts']>[number];
export type Uncertainty = NonNullable<Scenario['uncertainty']>[number];
export type Window = Scenario['operation']['windows'][number];
