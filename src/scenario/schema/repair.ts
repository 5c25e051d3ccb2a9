import * as z from 'zod';
import { positiveSchema } from './figures.js';

/** What a repair of a scenario without a plan may take from, and at which weights. */

const weight = (words: string) => positiveSchema.optional().describe(words);

export const repairSchema = z
  .strictObject({
    weights: z
      .strictObject({
        contractMinimum: weight("A mass unit missed of a contract's monthly minimum."),
        contractCall: weight("A mass unit less or more than a buyer's call."),
        termMinimum: weight("A mass unit missed of a contract's minimum over its term."),
        contractMaximum: weight("A mass unit above a contract's monthly maximum."),
        termMaximum: weight("A mass unit above a contract's maximum over its term."),
        quality: weight('A mass unit times the measure by which an average misses a limit of quality.'),
        feedCommitted: weight('A mass unit less taken of a committed feed.'),
        feedAvailable: weight('A mass unit more of a feed than is available.'),
        outletTier: weight('A mass unit more in a tier of an outlet than it takes.'),
        closingStock: weight('A mass unit missed of a closing stock.'),
        stockMinimum: weight('A mass unit missed of a minimum stock.'),
        stockCapacity: weight("A mass unit above a stock's own capacity."),
        store: weight("A mass unit above a store's capacity."),
        disposalLimit: weight('A mass unit above what a disposal takes.'),
        machineHours: weight('A machine-hour beyond those available.'),
        crewHours: weight('A crew-hour beyond the days of a window.'),
      })
      .describe('Weights by kind; the planner has its own where one is absent.'),
  })
  .meta({ id: 'repair' });
