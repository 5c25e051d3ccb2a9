import type { Best } from './best.js';
import { type OfferProgram, withNothingSold } from './offer-program.js';
import type { OfferSolver } from './offer-solver.js';

/** The best plans with nothing signed and with the offer at its own price; undefined where there is none. */
export interface OfferPair {
  readonly without: Best | undefined;
  readonly own: Best | undefined;
}

/** @throws Unfinished, DeclaredMissed */
export function offerPair(program: OfferProgram, solver: OfferSolver): OfferPair {
  const without = solver.best(withNothingSold(program), 'signed');
  const own = solver.best(program.formulation, 'signed');
  return improvedPair({ without, own }, solver);
}

/** With whole numbers: each with those of all plans that were found since, where they do better. */
export function improvedPair({ without, own }: OfferPair, solver: OfferSolver): OfferPair {
  const improved = (best: Best | undefined) =>
    best === undefined ? undefined : solver.improved(best, 'signed');
  return { without: improved(without), own: improved(own) };
}
