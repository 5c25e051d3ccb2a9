import * as z from 'zod';
import { type EvaluatedDraw, evaluateDraws } from '../../analysis/risk/evaluate-draws.js';
import { riskOutcome } from '../../analysis/risk/risk.js';
import { type RiskModel, riskModel } from '../../analysis/risk/risk-model.js';
import { readVariant } from '../../analysis/variant/read-variant.js';
import type { Problem } from '../../issue/problem.js';
import type { Plant } from '../../plant/plant.js';
import { riskDocument } from '../../report/finance/risk-document.js';
import { riskSchema } from '../../report/finance/risk-schema.js';
import { drawsCounted } from '../draws-counted.js';
import { countedProgress } from './progress.js';
import { question } from './question.js';
import { replyKind } from './reply-kind.js';
import { withoutPlan } from './without-plan.js';

export const riskQuestion = question({
  name: 'risk',
  summary: 'The distribution of the value over the numbers that are uncertain',
  options: z.strictObject({
    seed: z
      .number()
      .int()
      .min(0)
      .max(2 ** 31 - 1)
      .describe('The same seed gives the same draws.'),
    draws: z.number().int().min(1).max(20_000).optional().describe('1000 if absent.'),
    level: z.number().optional().describe('Also how often, and by how much, the value falls below this.'),
  }),
  example: { seed: 7, draws: 20 },
  answer: riskSchema,
  pace: 'long',
  find: ({ document }, { draws = DRAWS, ...rest }, solver, { cancelled, onProgress }, { part, of }) => {
    const variant = readVariant(document);
    if (!variant.ok) return { kind: 'problems', problems: variant.problems };
    const { scenario, plant } = variant;
    if ((scenario.uncertainty ?? []).length === 0) return { kind: 'problems', problems: [NOTHING_UNCERTAIN] };
    const found = riskModel(scenario, { ...rest, draws }, solver, { cancelled });
    if (!found.ok) {
      return found.reason === 'problems'
        ? { kind: 'problems', problems: found.problems }
        : withoutPlan(found.reason);
    }
    const { model } = found;
    const { expected, factors } = model;
    // Each part walks paths of every batch, so that whole batches are there early.
    const paths = model.paths.filter((_, i) => i % of === part);
    const own = paths.reduce((sum, path) => sum + path.length, 0);
    // Reported of all draws, the last of its own for sure.
    const report = countedProgress((progress) =>
      onProgress(progress.kind === 'counted' ? { ...progress, of: draws } : progress),
    );
    const onDraw = drawsCounted(report, own);
    const evaluated = paths.flatMap((path) => evaluateDraws(model, path, solver, { cancelled, onDraw }));
    return { kind: 'part', findings: { plant, model: { expected, factors }, evaluated } };
  },
  join: (_, options, findings: readonly Findings[]) => {
    const [{ plant, model }] = findings;
    const answer = riskOutcome(
      model,
      findings.flatMap(({ evaluated }) => evaluated),
      options,
    );
    if (answer.status === 'cancelled') return withoutPlan('cancelled');
    return { kind: replyKind(answer.status), document: riskDocument(plant, answer) };
  },
});

interface Findings {
  readonly plant: Plant;
  readonly model: Pick<RiskModel, 'expected' | 'factors'>;
  readonly evaluated: readonly EvaluatedDraw[];
}

const DRAWS = 1000;

const NOTHING_UNCERTAIN: Problem = {
  pointer: '/uncertainty',
  code: 'missing',
  message: 'The scenario says of no number that it is uncertain.',
  remedy: 'Give it a list `uncertainty`.',
};
