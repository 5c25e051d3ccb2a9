import type { DrawOutcome } from '../analysis/risk/evaluate-draws.js';
import { type RiskOutcome, riskAnswer } from '../analysis/risk/risk.js';
import type { RiskModel, RiskRequest } from '../analysis/risk/risk-model.js';
import type { AnalysisProgress } from './analysis-order.js';
import type { AnalysisPool } from './analysis-pool.js';

/** Draws in one order: the same whatever the number of workers. */
const CHUNK = 40;

/**
 * A risk analysis in the workers of a pool. Outcomes are put together in the order of draws, so the answer does
 * not depend on which worker was quicker. Stopped, it keeps the draws before the first that is missing.
 */
export async function assessRiskInPool(
  document: unknown,
  request: RiskRequest & { readonly level?: number },
  pool: AnalysisPool,
  onProgress: (progress: AnalysisProgress) => void = () => {},
): Promise<RiskOutcome & { readonly model?: RiskModel }> {
  const found = await pool.answer({ kind: 'risk model', document, request });
  if (!found.ok) {
    return found.reason === 'problems'
      ? { status: 'problems', problems: found.problems }
      : { status: found.reason };
  }
  const { model } = found;
  const starts = Array.from({ length: Math.ceil(request.draws / CHUNK) }, (_, i) => i * CHUNK);
  const done = new Map<number, number>();
  let [sum, count] = [0, 0];
  const chunks = await Promise.all(
    starts.map(async (from) => {
      const to = Math.min(request.draws, from + CHUNK);
      const outcomes = await pool.answer({ kind: 'risk draws', model, from, to }, (progress) => {
        done.set(from, progress.done);
        report();
      });
      done.set(from, outcomes.length);
      for (const outcome of outcomes) {
        if (outcome.kind !== 'planned') continue;
        sum += outcome.value;
        count += 1;
      }
      report();
      return outcomes;
    }),
  );
  return { ...riskAnswer(model, inOrder(chunks, starts, request.draws), request), model };

  function report(): void {
    const all = [...done.values()].reduce((total, draws) => total + draws, 0);
    onProgress({ done: all, of: request.draws, ...(count > 0 ? { estimate: sum / count } : {}) });
  }
}

/** All outcomes up to the first draw that was not evaluated. */
function inOrder(
  chunks: readonly (readonly DrawOutcome[])[],
  starts: readonly number[],
  draws: number,
): DrawOutcome[] {
  const outcomes: DrawOutcome[] = [];
  for (const [i, chunk] of chunks.entries()) {
    outcomes.push(...chunk);
    if (chunk.length < Math.min(CHUNK, draws - starts[i])) break;
  }
  return outcomes;
}
