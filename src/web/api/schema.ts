import * as z from 'zod';
import type { ProblemCode } from '../../issue/problem.js';
import { warning } from '../../report/schema/plan-parts.js';
import { NAME_PATTERN } from '../storage/scenario-name.js';

/** Shapes of requests and responses that several routes have. */

const PROBLEM_CODES = [
  'malformed',
  'unknown key',
  'missing',
  'wrong type',
  'out of range',
  'unknown format',
  'reserved',
  'unknown reference',
  'duplicate id',
  'series length',
  'unit needs a figure',
  'calendar',
  'overlap',
  'tiers',
  'yields',
  'assay',
  'circuit',
  'contract',
  'stock',
  'dead end',
  'hours',
  'conflict',
] as const satisfies readonly ProblemCode[];

export const problemSchema = z
  .strictObject({
    pointer: z.string().describe('JSON Pointer (RFC 6901) to the place; empty: the whole document.'),
    code: z.enum(PROBLEM_CODES),
    message: z.string().describe('What is wrong.'),
    remedy: z.string().describe('What to do.'),
  })
  .meta({ id: 'problem' });

export const warningSchema = warning;

export const scenarioName = z
  .string()
  .regex(new RegExp(NAME_PATTERN))
  .describe('Name under which a scenario is stored.');

export const entityTag = z.string().describe('Entity tag, quotation marks included.');

export const digest = z.string().regex(/^sha256:[0-9a-f]{64}$/);

/** A scenario's document: its own reader judges it, so that all is told at once. */
export const scenarioDocument = z.custom<Readonly<Record<string, unknown>>>(isObject, 'Write an object');

export const provenanceSchema = z
  .strictObject({
    question: digest.describe('Of the whole question: its name, scenario, patch and options.'),
    scenario: digest.describe('Of the scenario, canonical JSON (RFC 8785), SHA-256.'),
    patch: digest.optional().describe('Of the patch, where there is one.'),
    cutpoint: z.string().describe('Version.'),
    engines: z
      .array(z.strictObject({ name: z.string(), version: z.string() }))
      .describe('The solvers that could be asked.'),
    seed: z.number().optional().describe('Where chance was drawn from one.'),
  })
  .describe('What the answer was made from: the same again gives the same bytes.')
  .meta({ id: 'provenance' });

export const problemDetailsSchema = z
  .strictObject({
    type: z.string().describe('Which kind of problem: stays the same.'),
    title: z.string(),
    status: z.number().int(),
    detail: z.string().describe('What happened this time.'),
    problems: z.array(problemSchema).optional().describe('Each thing that is wrong, where it is known.'),
    provenance: provenanceSchema.optional(),
    answer: z.unknown().optional().describe('The document that says why there is no plan.'),
  })
  .describe('Problem details (RFC 9457).')
  .meta({ id: 'problemDetails' });

export function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
