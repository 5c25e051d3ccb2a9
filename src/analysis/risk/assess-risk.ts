import type { Solver } from '../../solver/choose.js';
import { type DrawHooks, evaluateDraws } from './evaluate-draws.js';
import { type RiskOutcome, riskOutcome } from './risk.js';
import { type RiskRequest, riskModel } from './risk-model.js';

/** A risk analysis in this thread. */
export function assessRisk(
  document: unknown,
  request: RiskRequest & { readonly level?: number },
  solver: Solver,
  hooks: DrawHooks = {},
): RiskOutcome {
  const found = riskModel(document, request, solver, { cancelled: hooks.cancelled });
  if (!found.ok) {
    return found.reason === 'problems'
      ? { status: 'problems', problems: found.problems }
      : { status: found.reason };
  }
  const outcomes = found.model.paths.flatMap((path) => evaluateDraws(found.model, path, solver, hooks));
  return riskOutcome(found.model, outcomes, request);
}
