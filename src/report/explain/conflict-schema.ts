import * as z from 'zod';
import { mass, money, monthLabel as month, text } from '../schema/quantities.js';
import { head } from './document-head.js';
import { place } from './limit-schema.js';

const member = { ...place, amount: z.number(), unit: text };

/** Why there is no plan, and what would have to give. */
export const infeasible = z
  .strictObject({
    ...head,
    status: z.literal('infeasible'),
    conflict: z
      .array(z.strictObject(member))
      .optional()
      .describe('Promises and limits that cannot all hold; without any one of them the others can.'),
    obvious: z.array(
      z.discriminatedUnion('kind', [
        z.strictObject({
          kind: z.literal('minimum above capacity'),
          contract: text,
          month,
          asked: mass('By the contract.'),
          atMost: mass('That can be had.'),
        }),
        z.strictObject({
          kind: z.literal('committed above machines and room'),
          material: text,
          month,
          committed: mass('Until the end of the month.'),
          atMost: mass('That can be taken.'),
        }),
        z.strictObject({
          kind: z.literal('waste without room'),
          material: text,
          month,
          made: mass('Until the end of the month, at least.'),
          atMost: mass('That can be taken.'),
        }),
      ]),
    ),
    repair: z
      .strictObject({
        gives: z.array(
          z.strictObject({ ...member, by: z.number(), to: z.number().describe('What is left of it.') }),
        ),
        weights: z.record(z.string(), z.number()).describe('By unit of each kind.'),
        weight: z.number().describe('Σ weight · by.'),
        plan: z
          .strictObject({
            presentValue: money('At the start of the horizon.'),
            margin: money('The plain sum.'),
            accepted: z.boolean().describe('By the certificate, against the repaired figures.'),
          })
          .optional()
          .describe('Of the repaired scenario, not of the one asked about.'),
      })
      .optional(),
    solves: z.number().int(),
  })
  .meta({ id: 'conflictDocument' });
