import type { EvaluatedDraw } from '../analysis/risk/evaluate-draws.js';
import { type RiskOutcome, riskAnswer } from '../analysis/risk/risk.js';
import type { RiskModel, RiskRequest } from '../analysis/risk/risk-model.js';
import type { AnalysisProgress } from './analysis-order.js';
import type { AnalysisPool } from './analysis-pool.js';

/**
 * A risk analysis in the workers of a pool. The paths through the draws are those of the model, and figures are
 * summed in the order of draws: the answer depends neither on how many workers there are nor on which was quicker.
 * Undefined where it was stopped before the draws were made.
 */
export async function assessRiskInPool(
  document: unknown,
  request: RiskRequest & { readonly level?: number },
  pool: AnalysisPool,
  onProgress: (progress: AnalysisProgress) => void = () => {},
): Promise<RiskOutcome | undefined> {
  const found = await pool.answer({ kind: 'risk model', document, request });
  if (found === undefined) return undefined;
  if (!found.ok) {
    return found.reason === 'problems'
      ? { status: 'problems', problems: found.problems }
      : { status: found.reason };
  }
  const { model } = found;
  const done = new Map<number, number>();
  let [sum, count] = [0, 0];
  const evaluated: EvaluatedDraw[] = [];
  const waiting = [...model.paths.entries()];
  // One order at a time for each worker: what still waits when the user stops is never sent.
  const work = async (): Promise<void> => {
    for (let next = waiting.shift(); next !== undefined && !pool.isStopped; next = waiting.shift()) {
      const [i, path] = next;
      const draws = await pool.answer(
        { kind: 'risk draws', model: forPath(model, path), path },
        (progress) => {
          done.set(i, progress.done);
          report();
        },
      );
      if (draws === undefined) return;
      done.set(i, draws.length);
      for (const { outcome } of draws) {
        if (outcome.kind !== 'planned') continue;
        sum += outcome.value;
        count += 1;
      }
      evaluated.push(...draws);
      report();
    }
  };
  await Promise.all(Array.from({ length: pool.workers }, work));
  return riskAnswer(model, evaluated, request);

  function report(): void {
    const all = [...done.values()].reduce((total, draws) => total + draws, 0);
    onProgress({ done: all, of: request.draws, ...(count > 0 ? { estimate: sum / count } : {}) });
  }
}

/** The model with the factors of one path only: less to hand over. */
function forPath(model: RiskModel, path: readonly number[]): RiskModel {
  const factors = new Array<RiskModel['factors'][number]>(model.factors.length);
  for (const draw of path) factors[draw] = model.factors[draw];
  return { ...model, factors, paths: [] };
}
