import { isObject } from '../api/schema.js';
import { type FormOffer, offerOf } from './offer-terms.js';
import type { ScenarioPage } from './scenario-page.js';

export type Contract = Readonly<Record<string, unknown>>;

/** The offer that a page is about: as it is stored, and with the terms of the form. */
export interface OpenForm {
  readonly offers: readonly Contract[];
  /** The offer as it is stored, or a new one. */
  readonly base: Contract;
  readonly isNew: boolean;
  readonly form: FormOffer;
}

export function openForm(page: ScenarioPage): OpenForm {
  const { query, document } = page;
  const offers = listOf(document.offers);
  const chosen = offers.find(({ id }) => id === query.get('offer'));
  const base = chosen ?? (query.get('offer') === 'new' || offers.length === 0 ? blank(page) : offers[0]);
  return { offers, base, isNew: !offers.includes(base), form: offerOf(base, query) };
}

/** The objects of a list; none where it is no list. */
export function listOf(value: unknown): readonly Contract[] {
  return Array.isArray(value) ? value.filter(isObject) : [];
}

/** A new offer on the horizon's months, of the first material that anybody buys; its figures are the user's to give. */
function blank({ document }: ScenarioPage): Contract {
  const horizon = isObject(document.horizon) ? document.horizon : {};
  const [material] = listOf(document.outlets).map((outlet) => String(outlet.material));
  const first = String(horizon.firstMonth);
  return {
    id: 'new-offer',
    name: 'New offer',
    buyer: 'Buyer',
    materials: material === undefined ? [] : [material],
    from: `${first}-01`,
    to: lastDay(first, Number(horizon.months)),
  };
}

/** The last day of the horizon's last month. */
function lastDay(firstMonth: string, months: number): string {
  const [year, month] = firstMonth.split('-').map(Number);
  return new Date(Date.UTC(year, month - 1 + months, 0)).toISOString().slice(0, 10);
}
