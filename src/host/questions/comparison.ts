import * as z from 'zod';
import { compared } from '../../analysis/comparison/compared.js';
import { planMonths } from '../../analysis/monthly-plan.js';
import { readVariant } from '../../analysis/variant/read-variant.js';
import type { Problem } from '../../issue/problem.js';
import type { Plant } from '../../plant/plant.js';
import { comparisonReport } from '../../report/finance/comparison-report.js';
import { comparisonSchema } from '../../report/finance/comparison-schema.js';
import { patched } from '../patched.js';
import { question } from './question.js';
import { replyKind } from './reply-kind.js';
import { withoutPlan } from './without-plan.js';

export const comparisonQuestion = question({
  name: 'comparison',
  summary: 'Two scenarios, and why their margins differ',
  options: z.strictObject({
    after: z
      .strictObject({ scenario: z.unknown(), patch: z.unknown().optional() })
      .describe('The scenario that is compared with the first, as that one is given.'),
  }),
  example: { after: { scenario: 'one-month', patch: { title: 'The same' } } },
  answer: comparisonSchema,
  pace: 'short',
  subjects: ['after'],
  ask: ({ document }, { after }, solver, { seconds, cancelled }) => {
    const first = readVariant(document);
    if (!first.ok) return { kind: 'problems', problems: first.problems };
    const changed = patched(after.scenario, after.patch);
    if (!changed.ok) return { kind: 'problems', problems: changed.problems };
    const second = readVariant(changed.document);
    if (!second.ok) return { kind: 'problems', problems: second.problems };
    if (!isSameUnits(first.plant.units, second.plant.units))
      return { kind: 'problems', problems: [OTHER_UNITS] };
    const plans = [first, second].map(({ plant }) => planMonths(plant, solver, { seconds, cancelled }));
    const outcome = compared(
      { plant: first.plant, answer: plans[0] },
      { plant: second.plant, answer: plans[1] },
    );
    if ('side' in outcome) return withoutPlan(outcome.status);
    return {
      kind: replyKind(outcome.status),
      document: comparisonReport(first.plant, second.plant, outcome).document,
    };
  },
});

const OTHER_UNITS: Problem = {
  pointer: '/units',
  code: 'conflict',
  message: 'The two scenarios are in other units or currencies.',
  remedy: 'Compare scenarios of the same units.',
};

function isSameUnits(one: Plant['units'], other: Plant['units']): boolean {
  return one.mass === other.mass && one.currency === other.currency;
}
