import type { Best } from './best.js';
import { mayBeBetter, openOf } from './loss.js';
import type { ChosenSets, SignedSet } from './offer-sets.js';
import type { OfferSolver } from './offer-solver.js';
import type { SetChoice, SetPrograms } from './set-programs.js';

/** The share of each offer is a whole-number column, and the engine chooses. @throws Unfinished, DeclaredMissed */
export function bestByBranching(programs: SetPrograms, solver: OfferSolver): ChosenSets | undefined {
  const solve = (choice: SetChoice, not?: SignedSet): Best | undefined =>
    solver.best(programs.formulationOf(choice, not), not === undefined ? 'set' : 'other set');
  const first = solve(new Map());
  if (first === undefined) return undefined;
  const best = programs.signedSet(first);
  const second = solve(new Map(), best);
  const runnerUp = second === undefined ? undefined : programs.signedSet(second);
  const none = solve(new Map(programs.offers.map((id) => [id, false])))?.value;
  const signed = best.offers.map(({ offer }) => offer);
  const lost = (offer: string, isSigned: boolean) => openOf(best, solve(new Map([[offer, isSigned]])));
  return {
    best,
    ...(runnerUp === undefined ? {} : { runnerUp }),
    undecided:
      runnerUp !== undefined && mayBeBetter(best, runnerUp)
        ? [{ offers: runnerUp.offers, bound: runnerUp.bound }]
        : [],
    ...(none === undefined ? {} : { none }),
    losses: signed.map((offer) => {
      const { figure, ...open } = lost(offer, false);
      return { offer, ...(figure === undefined ? {} : { loss: figure }), ...open };
    }),
    costs: programs.offers
      .filter((id) => !signed.includes(id))
      .map((offer) => {
        const { figure, ...open } = lost(offer, true);
        return { offer, ...(figure === undefined ? {} : { cost: figure }), ...open };
      }),
    manner: 'whole numbers',
  };
}
