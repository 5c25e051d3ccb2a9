import { Unfinished } from '../unfinished.js';
import type { ProgramPiece } from '../variant/affine-pieces.js';
import type { ProgramFamily } from '../variant/program-family.js';
import { type BestPlan, bestPlan } from './best-plan.js';
import { measuredSamples } from './measured-samples.js';
import type { SamplingLimits } from './proved-samples.js';
import type { PointSolver } from './solve-point.js';
import type { Reach } from './sweep-answer.js';
import type { SweepRecord } from './sweep-record.js';

/** Sweeps a piece by asking for the best plan at more and more points. */
export function sweepMeasured(
  family: ProgramFamily,
  piece: ProgramPiece,
  reach: Reach,
  points: PointSolver,
  limits: SamplingLimits,
  record: SweepRecord,
  hooks: { readonly cancelled?: () => boolean },
): void {
  const asked: BestPlan[] = [];
  const valueAt = (at: number): BestPlan | undefined => {
    const member = family(at);
    if (!member.ok) return undefined;
    const plan = bestPlan(member.formulation, at, points, {
      gap: limits.tolerance,
      cancelled: hooks.cancelled,
    });
    if (plan !== undefined) {
      asked.push(plan);
      record.asked(plan);
    }
    return plan;
  };
  try {
    const found = measuredSamples(valueAt, piece.from, piece.to, limits);
    for (const gap of found.infeasible) record.range({ ...gap, status: 'infeasible', limits: [] });
    const isWholly = found.infeasible.every(({ from, to }) => from === piece.from && to === piece.to);
    if (found.points.length === 0 && isWholly) return;
    record.answered(reach, found.points, { kind: 'measured', amount: found.error });
  } catch (error) {
    if (!(error instanceof Unfinished)) throw error;
    const sorted = asked
      .sort((a, b) => a.at - b.at)
      .map(({ at, value, plan: { tonnes } }) => ({
        at,
        value,
        kind: 'sample' as const,
        tonnesLeft: tonnes,
        tonnesRight: tonnes,
      }));
    record.answered(reach, sorted);
    const status = error.reason === 'cancelled' ? 'not asked' : error.reason;
    record.range({ from: piece.from, to: piece.to, status });
  }
}
