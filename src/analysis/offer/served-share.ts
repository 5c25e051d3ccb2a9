import type { LinearProgram } from '../../program/linear-program.js';
import type { OfferProgram } from './offer-program.js';
import type { OfferSolver } from './offer-solver.js';
import { type TakeKey, withShares } from './signed-shares.js';

/**
 * The largest share, 0 to 1, of an offer's volumes (of every minimum, maximum and term alike) that can be served
 * together with all other promises. Undefined where there is no plan even without the offer.
 *
 * @throws Unfinished
 */
export function servedShare(
  { formulation, contract }: OfferProgram,
  solver: OfferSolver,
): number | undefined {
  const counted = { ...formulation, program: solver.counted(formulation.program) };
  const shared = withShares(counted, new Map([[contract.id, { lower: 0, upper: 1, whole: false }]]));
  const take = shared.take.get(contract.id) as number;
  const program: LinearProgram<TakeKey, unknown> = {
    ...shared.program,
    offset: 0,
    cost: shared.program.cost.map((_, j) => (j === take ? 1 : 0)),
  };
  return solver.alone(program)?.answer.primal[take];
}
