import * as z from 'zod';
import {
  dateSchema,
  idSchema,
  nameSchema,
  nonNegativeSchema,
  numberSchema,
  positiveSchema,
  series,
} from './figures.js';

/** When the plant can work and what power costs then. */

export const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;

const startSchema = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'Write a time of day as HH:MM, from 00:00 to 23:59, such as 06:30.')
  .describe('Time of day, HH:MM.');

const endSchema = z
  .string()
  .regex(
    /^([01]\d|2[0-3]):[0-5]\d$|^24:00$/,
    'Write a time of day as HH:MM, from 00:00 to 24:00, such as 06:30.',
  )
  .describe('Time of day, HH:MM, 24:00 allowed.');

export const windowSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema.optional(),
    days: z.array(z.enum(WEEKDAYS)).min(1).describe('Weekdays on which the window begins.'),
    from: startSchema,
    to: endSchema.describe('Time of day, HH:MM. Not after `from`: the window runs past midnight.'),
    powerPrice: series(numberSchema).describe('Currency per kWh. Series.'),
    wageFactor: nonNegativeSchema.optional().describe('Multiplies wages in this window. 1 if absent.'),
  })
  .meta({ id: 'window' });

export const demandSchema = z
  .strictObject({
    charge: series(nonNegativeSchema).describe("Currency per kW of the month's peak. Series."),
    basis: z
      .enum(['average', 'connected'])
      .optional()
      .describe(
        'Peak from the average load of a window, or from the rated load of what is switched on. average if absent.',
      ),
    peakToAverage: z
      .number()
      .min(1)
      .optional()
      .describe('Peak load over average load of a window. 1 if absent.'),
    baseLoad: nonNegativeSchema.optional().describe('kW that run whatever is planned. 0 if absent.'),
  })
  .meta({ id: 'demand' });

export const operationSchema = z
  .strictObject({
    closed: z.array(dateSchema).optional().describe('Dates on which no window begins.'),
    windows: z
      .array(windowSchema)
      .min(1)
      .describe('Parts of the week with their own power price and wage factor.'),
    demand: demandSchema.optional().describe('Demand charge; none if absent.'),
  })
  .meta({ id: 'operation' });

export const crewSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema.optional(),
    people: positiveSchema.describe('People who attend together.'),
    wage: series(nonNegativeSchema).describe('Currency per person-hour. Series.'),
    staffing: z
      .enum(['hourly', 'by the shift', 'by the month'])
      .describe('Paid by the hour, by whole windows on whole days, or for all days of a window in a month.'),
  })
  .meta({ id: 'crew' });

export const machineSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema.optional(),
    count: z.number().int().min(1).optional().describe('Machines of this kind. 1 if absent.'),
    availability: series(z.number().min(0).max(1))
      .optional()
      .describe("Share of a window's hours that the machine runs. 1 if absent. Series."),
    maintenanceHours: series(nonNegativeSchema)
      .optional()
      .describe('Hours a month of the whole group. 0 if absent. Series.'),
    crew: idSchema.optional().describe('The crew that attends it; no wages if absent.'),
  })
  .meta({ id: 'machine' });
