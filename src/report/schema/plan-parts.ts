import * as z from 'zod';
import { DECISION_KINDS, LIMIT_KINDS } from '../place-kinds.js';
import { disposal, receipt, staffing } from './month.js';
import { energy, hours, mass, money, monthLabel, text } from './quantities.js';

/** Parts of the plan's document that are not of one month. */

const WARNING_CODES = ['assay', 'circuit', 'starter figure', 'bunched load', 'only offered'] as const;

export const warning = z
  .strictObject({
    pointer: z.string().describe('JSON Pointer into the scenario.'),
    code: z.enum(WARNING_CODES),
    message: z.string(),
  })
  .meta({ id: 'warning' });

export const starterFigure = z
  .strictObject({
    material: text,
    field: z.enum(['assay', 'tireMass', 'heatingValue']),
    id: text.describe('In the table of starter figures.'),
    source: z.string(),
    status: z
      .enum(['read', 'from memory', 'invented'])
      .describe('read: seen in the source; from memory: not checked against it; invented: from no source.'),
  })
  .meta({ id: 'starterFigure' });

const nameById = z.record(z.string(), z.string());

export const namesRecord = z
  .strictObject({
    windows: nameById,
    materials: nameById,
    stores: nameById,
    feeds: nameById,
    crews: nameById,
    machines: nameById,
    steps: nameById,
    outlets: nameById,
    contracts: nameById,
    disposals: nameById,
  })
  .describe('Names for people, by id.')
  .meta({ id: 'names' });

export const totalRecord = z
  .strictObject({
    received: mass('Of all feeds.'),
    receipts: z.array(receipt),
    steps: z.array(
      z.strictObject({
        step: text,
        machine: text,
        input: text,
        mass: mass('Of input.'),
        hours: hours('Of the machine.'),
      }),
    ),
    machines: z.array(
      z.strictObject({ machine: text, hours: hours('Used.'), available: hours('That it has.') }),
    ),
    crews: z.array(
      z.strictObject({
        crew: text,
        staffing,
        hours: hours('Attended.'),
        wages: money('Paid.'),
        shifts: z.number().optional().describe('Shifts to call; where staffed by the shift.'),
      }),
    ),
    sales: z.array(
      z.strictObject({
        outlet: text,
        material: text,
        mass: mass('Sold.'),
        receipts: money('Before freight and packing.'),
      }),
    ),
    contracts: z.array(
      z.strictObject({
        contract: text,
        buyer: text,
        delivered: mass('Delivered.'),
        min: mass("The months' minimums."),
        missed: mass('Of the months.'),
        shortfallCharge: money('For what was missed in the months.'),
        missedTerm: mass("Of the term's minimum."),
        termCharge: money('For what of the term was missed.'),
        termMin: mass("What of the term's minimum falls on the horizon.").optional(),
        termMax: mass("What the term's maximum leaves.").optional(),
        receipts: money('Before freight and packing.'),
      }),
    ),
    disposals: z.array(disposal),
    energy: energy('Of all steps.'),
  })
  .describe('The months added up.')
  .meta({ id: 'total' });

export const place = z
  .strictObject({
    kind: z.enum([...LIMIT_KINDS, ...DECISION_KINDS]),
    month: monthLabel.optional(),
    feed: text.optional(),
    step: text.optional(),
    window: text.optional(),
    material: text.optional(),
    machine: text.optional(),
    crew: text.optional(),
    outlet: text.optional(),
    tier: z.number().int().optional(),
    contract: text.optional(),
    measure: text.optional(),
    limit: z.enum(['min', 'max']).optional(),
    disposal: text.optional(),
    store: text.optional(),
  })
  .describe('A limit or a decision of the plan.')
  .meta({ id: 'place' });

const violation = z
  .strictObject({
    amount: z.number().describe('Relative to the scale of its limit or decision.'),
    at: place.optional(),
  })
  .meta({ id: 'violation' });

const condition = z.enum([
  'primal feasibility',
  'dual feasibility',
  'complementary slackness',
  'duality gap',
  'integrality',
]);

export const certificate = z
  .strictObject({
    accepted: z.boolean(),
    tolerance: z.number().describe('Largest violation that is accepted.'),
    scale: money('What the gap is relative to.'),
    objective: money('Present value of the plan.'),
    bound: money('Present value that no plan exceeds; absent where none was proved.').optional(),
    gap: z.number().optional().describe('|bound − objective| / scale.'),
    primal: violation,
    dual: violation.optional(),
    complementarity: violation.optional(),
    integrality: violation,
    failures: z.array(condition).describe('Conditions that fail; empty when accepted.'),
  })
  .describe("The proof, computed from the scenario's own figures by code that knows no engine.")
  .meta({ id: 'certificate' });

export const wholeNumbers = z
  .strictObject({
    proved: z.number().optional().describe('Gap to the proved bound, relative to the scale.'),
    provedBound: money('Present value that no plan exceeds, proved without whole numbers.').optional(),
    claimed: z.number().optional().describe("Gap to the engine's own bound: its word."),
    claimedBound: money("The engine's own bound: its word.").optional(),
  })
  .describe('With whole shifts or windows: how far the plan may be from the best.')
  .meta({ id: 'wholeNumbers' });
