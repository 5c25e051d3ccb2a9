import { type RiskOutcome, riskAnswer } from '../analysis/risk/risk.js';
import type { RiskModel, RiskRequest } from '../analysis/risk/risk-model.js';
import type { AnalysisProgress } from './analysis-order.js';
import type { AnalysisPool } from './analysis-pool.js';

/**
 * A risk analysis in the workers of a pool. The paths through the draws are those of the model, and figures are
 * summed in the order of draws: the answer depends neither on how many workers there are nor on which was quicker.
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
  const done = new Map<number, number>();
  let [sum, count] = [0, 0];
  const chunks = await Promise.all(
    model.paths.map(async (path, i) => {
      const evaluated = await pool.answer({ kind: 'risk draws', model, path }, (progress) => {
        done.set(i, progress.done);
        report();
      });
      done.set(i, evaluated.length);
      for (const { outcome } of evaluated) {
        if (outcome.kind !== 'planned') continue;
        sum += outcome.value;
        count += 1;
      }
      report();
      return evaluated;
    }),
  );
  return { ...riskAnswer(model, chunks.flat(), request), model };

  function report(): void {
    const all = [...done.values()].reduce((total, draws) => total + draws, 0);
    onProgress({ done: all, of: request.draws, ...(count > 0 ? { estimate: sum / count } : {}) });
  }
}
