import type { ListName } from './draft.js';

/** What one entry of a list is called. */
export const NOUNS: Readonly<Record<ListName, string>> = {
  windows: 'window',
  materials: 'material',
  stores: 'store',
  feeds: 'feed',
  crews: 'crew',
  machines: 'machine',
  steps: 'step',
  outlets: 'outlet',
  indices: 'index',
  contracts: 'contract',
  offers: 'offer',
  disposals: 'disposal',
  fixedCosts: 'fixed cost',
  uncertainty: 'uncertainty',
};

/** @example withArticle('outlets') // 'an outlet' */
export function withArticle(list: ListName): string {
  return `${/^[aeiou]/.test(NOUNS[list]) ? 'an' : 'a'} ${NOUNS[list]}`;
}
