import * as z from 'zod';
import { stepSchema } from './conversion.js';
import { monthSchema, numberSchema } from './figures.js';
import { materialSchema, storeSchema } from './materials.js';
import { crewSchema, machineSchema, operationSchema } from './operation.js';
import { repairSchema } from './repair.js';
import { contractSchema, indexSchema, outletSchema } from './sales.js';
import { disposalSchema, feedSchema, fixedCostSchema, uncertaintySchema } from './supply.js';

export const SCENARIO_FORMAT = 'cutpoint-scenario/1';

export const MAX_MONTHS = 60;

/** A plant, its market and its promises over some months: what the user writes. */
export const scenarioSchema = z.strictObject({
  $schema: z.string().optional().describe('For editors; not read.'),
  format: z.literal(SCENARIO_FORMAT).describe('Name and version of this format.'),
  title: z.string().min(1).describe('Name of the scenario.'),
  note: z.string().optional().describe('For people; not read.'),
  units: z
    .strictObject({
      mass: z.enum(['tonne', 'short ton']).describe('Unit of every mass.'),
      currency: z
        .string()
        .regex(/^[A-Z]{3}$/, 'Write the three capital letters of the currency, such as EUR or USD.')
        .describe('ISO 4217 code.'),
    })
    .describe('Units of the whole document.'),
  horizon: z
    .strictObject({
      firstMonth: monthSchema.describe('First month that is planned, YYYY-MM.'),
      months: z.number().int().min(1).max(MAX_MONTHS).describe('How many months are planned.'),
    })
    .describe('The months that are planned.'),
  discountRate: numberSchema.gt(-1).optional().describe('A year, effective. 0 if absent.'),
  operation: operationSchema.describe('When the plant can work, and what power costs then.'),
  materials: z.array(materialSchema).min(1).describe('Everything with a mass.'),
  stores: z.array(storeSchema).optional().describe('Rooms that stocks share. None if absent.'),
  feeds: z.array(feedSchema).min(1).describe('Where material comes in.'),
  crews: z.array(crewSchema).optional().describe('People who attend machines. None if absent.'),
  machines: z.array(machineSchema).min(1).describe('What has hours to give.'),
  steps: z.array(stepSchema).min(1).describe('Conversions of one material into others.'),
  outlets: z.array(outletSchema).optional().describe('Spot markets. None if absent.'),
  indices: z.array(indexSchema).optional().describe('Figures that prices follow. None if absent.'),
  contracts: z.array(contractSchema).optional().describe('Offtake agreements in force. None if absent.'),
  offers: z
    .array(contractSchema)
    .optional()
    .describe('Contracts that have not been signed; not part of the plan.'),
  disposals: z
    .array(disposalSchema)
    .optional()
    .describe('Places that take waste for a charge. None if absent.'),
  fixedCosts: z.array(fixedCostSchema).optional().describe('Costs whatever is planned. None if absent.'),
  uncertainty: z
    .array(uncertaintySchema)
    .optional()
    .describe('Figures that may turn out otherwise. None if absent.'),
  repair: repairSchema
    .optional()
    .describe("What may give way where no plan exists, and at which weights. The planner's own if absent."),
});

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
