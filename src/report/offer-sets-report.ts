import type { OfferSets } from '../analysis/offer/offer-sets.js';
import type { Plant } from '../plant/plant.js';
import { formatMoney } from './figure.js';
import type { QuestionReport } from './finance/question-report.js';

export const OFFER_SETS_FORMAT = 'cutpoint-offer-set/1';

/** Which of several offers to sign, in every form. */
export function offerSetsReport(plant: Plant, answer: OfferSets): QuestionReport {
  const { units } = plant;
  const { best, runnerUp, none, losses, costs, manner, solves } = answer;
  const names = (set: OfferSets['best']) =>
    set.offers
      .map(({ offer, share }) => (share === 1 ? offer : `${offer} (${Math.round(share * 1000) / 10} %)`))
      .join(', ') || 'none of them';
  const sets = {
    columns: [
      { head: 'sign', kind: 'text' as const },
      { head: 'present value', kind: 'money' as const },
      { head: 'less than the best', kind: 'money' as const },
    ],
    rows: [
      [names(best), best.value, 0],
      ...(runnerUp === undefined ? [] : [[names(runnerUp), runnerUp.value, best.value - runnerUp.value]]),
      ...(none === undefined ? [] : [['nothing', none, best.value - none]]),
    ],
  };
  const offers = {
    columns: [
      { head: 'offer', kind: 'text' as const },
      { head: 'signed', kind: 'text' as const },
      { head: 'lost by deciding otherwise', kind: 'money' as const },
    ],
    rows: [
      ...losses.map(({ offer, loss }) => [offer, 'yes', loss]),
      ...costs.map(({ offer, cost }) => [offer, 'no', cost]),
    ],
  };
  return {
    document: { format: OFFER_SETS_FORMAT, title: plant.title, units, ...answer },
    units,
    headline: [
      `Sign ${names(best)}${none === undefined ? '' : `: ${formatMoney(best.value - none, units.currency)} (present value) above signing nothing`}.`,
      `${manner === 'all sets' ? 'All sets were tried' : 'Chosen by whole numbers'}: ${solves} solves.`,
    ],
    sections: [
      { title: 'Sets', table: sets },
      { title: 'Each offer', table: offers },
    ],
    tables: [
      { name: 'offer-sets', table: sets },
      { name: 'offer-set-offers', table: offers },
    ],
    charts: [],
  };
}
