import * as z from 'zod';
import { entityTag, problemSchema, scenarioName, warningSchema } from './schema.js';

const listing = z
  .discriminatedUnion('state', [
    z.strictObject({
      name: scenarioName,
      state: z.literal('good'),
      etag: entityTag,
      title: z.string(),
      warnings: z.array(warningSchema),
    }),
    z.strictObject({
      name: scenarioName,
      state: z.literal('broken'),
      etag: entityTag.optional().describe('Absent where the file cannot be read.'),
      problems: z.array(problemSchema),
    }),
  ])
  .meta({ id: 'scenarioListing' });

export const scenarioList = z
  .strictObject({ scenarios: z.array(listing) })
  .describe('What is stored; files that people broke by hand are listed as broken.')
  .meta({ id: 'scenarioList' });

export const versionList = z
  .strictObject({
    versions: z.array(
      z.strictObject({ version: z.number().int().min(1).describe('The oldest first.'), etag: entityTag }),
    ),
  })
  .describe('Versions that were replaced or deleted.')
  .meta({ id: 'versionList' });
