import * as z from 'zod';
import { COMPARISON_FORMAT } from './comparison-report.js';
import { comparisonSchema } from './comparison-schema.js';
import { FEE_FORMAT } from './fee-report.js';
import { feeSchema } from './fee-schema.js';
import { RISK_FORMAT, riskSchema } from './risk-schema.js';
import { sweepMapSchema, sweepSchema } from './sweep-schema.js';
import { TORNADO_FORMAT } from './tornado-report.js';
import { tornadoSchema } from './tornado-schema.js';

/** A document's JSON Schema (2020-12). */
type JsonSchema = Record<string, unknown>;

/** The JSON Schemas of the documents that finance's questions answer with. */
export const FINANCE_JSON_SCHEMAS = {
  sweep: (): JsonSchema => of(sweepSchema, 'cutpoint-sweep/1'),
  'sweep-map': (): JsonSchema => of(sweepMapSchema, 'cutpoint-sweep-map/1'),
  fee: (): JsonSchema => of(feeSchema, FEE_FORMAT),
  tornado: (): JsonSchema => of(tornadoSchema, TORNADO_FORMAT),
  risk: (): JsonSchema => of(riskSchema, RISK_FORMAT),
  comparison: (): JsonSchema => of(comparisonSchema, COMPARISON_FORMAT),
} as const;

function of(schema: z.ZodType, title: string): JsonSchema {
  return { title, ...z.toJSONSchema(schema, { target: 'draft-2020-12' }) };
}
