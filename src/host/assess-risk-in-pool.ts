import { type RiskOutcome, riskOutcome } from '../analysis/risk/risk.js';
import type { RiskRequest } from '../analysis/risk/risk-model.js';
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
  const next = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
  const progress: AnalysisProgress[] = [];
  const parts = await Promise.all(
    Array.from({ length: pool.workers }, (_, i) =>
      pool.answer({ kind: 'risk draws', model, next }, (own) => {
        progress[i] = own;
        onProgress(sumOf(progress, request.draws));
      }),
    ),
  );
  const evaluated = parts.flatMap((draws) => draws ?? []);
  onProgress({ ...sumOf(progress, request.draws), done: evaluated.length });
  return riskOutcome(model, evaluated, request);
}

/** How far all workers have come together; a worker that has not reported yet has no entry. */
function sumOf(progress: readonly AnalysisProgress[], of: number): AnalysisProgress {
  let [done, counted, sum] = [0, 0, 0];
  for (const own of progress.filter((one) => one !== undefined)) {
    done += own.done;
    counted += own.counted ?? 0;
    sum += (own.counted ?? 0) * (own.estimate ?? 0);
  }
  return { done, of, ...(counted === 0 ? {} : { counted, estimate: sum / counted }) };
}
