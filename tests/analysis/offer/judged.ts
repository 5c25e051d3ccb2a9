import { judgeOffer, type OfferRequest } from '../../../src/analysis/offer/judge-offer.js';
import type { JudgedOffer } from '../../../src/analysis/offer/offer-answer.js';
import { readOffer, type SignedOffer } from '../../../src/analysis/offer/read-offer.js';
import type { Contract, Scenario } from '../../../src/scenario/schema/scenario.js';
import type { SolveLimits } from '../../../src/solver/port.js';
import { solverFor } from '../../solver/solver-for.js';

export const NOTHING_ELSE: OfferRequest = { parts: new Set(), margin: 0, counting: 'whole' };

export const EVERYTHING: OfferRequest = {
  ...NOTHING_ELSE,
  parts: new Set(['ladder', 'displaced', 'terms', 'calls']),
};

export function signedInto(scenario: Scenario, offer: Contract): SignedOffer {
  const reading = readOffer(scenario, { document: offer });
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading;
}

/** A judged offer; an answer of another kind fails the test. */
export async function judged(
  scenario: Scenario,
  offer: Contract,
  request: Partial<OfferRequest> = {},
  limits: SolveLimits = {},
): Promise<JudgedOffer> {
  const solver = await solverFor('auto');
  const answer = judgeOffer(signedInto(scenario, offer), { ...NOTHING_ELSE, ...request }, solver, limits);
  if (answer.status !== 'judged') throw new Error(answer.status);
  return answer;
}

/** An offer for shred to the tiny plant: whole February, price and volumes as given. */
export function shredOffer(changes: Partial<Contract> = {}): Contract {
  return {
    id: 'offer',
    buyer: 'Invented',
    materials: ['shred'],
    from: '2027-02-01',
    to: '2027-02-28',
    price: 50,
    monthly: { min: 10, max: 10 },
    ...changes,
  };
}
