import type { OfferSolver } from './offer-solver.js';

/** Solves since the last call. */
export type SolveCount = () => number;

export function countSolves(solvers: ReadonlySet<OfferSolver>): SolveCount {
  let before = 0;
  return () => {
    const now = [...solvers].reduce((sum, { solves }) => sum + solves, 0);
    const since = now - before;
    before = now;
    return since;
  };
}
