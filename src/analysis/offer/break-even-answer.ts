import type { Best } from './best.js';
import { type BreakEvenRequest, breakEven } from './break-even.js';
import type { BreakEvenAnswer } from './offer-answer.js';
import type { OfferSolver } from './offer-solver.js';

type Request = Omit<BreakEvenRequest, 'without' | 'own'> & {
  readonly without: Best | undefined;
  readonly own: Best | undefined;
};

/** The break-even as part of an answer, with what it took. @throws Unfinished, DeclaredMissed */
export function breakEvenAnswer(request: Request, solver: OfferSolver): BreakEvenAnswer {
  const { parameter, without, own } = request;
  const { kind, per, own: offered } = parameter;
  const head = { kind, ...(per === undefined ? {} : { per }), own: offered };
  if (without === undefined) return { ...head, reason: 'no plan without it', solves: 0 };
  if (own === undefined) return { ...head, reason: 'cannot be served', solves: 0 };
  const before = solver.solves;
  const found = breakEven({ ...request, without, own }, solver);
  const solves = solver.solves - before;
  if (!found.found) return { ...head, reason: found.reason, solves };
  const { price, interval } = found;
  return { ...head, price, ...(interval === undefined ? {} : { interval }), solves };
}
