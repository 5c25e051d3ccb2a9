import type { Scenario } from '../../scenario/schema/scenario.js';

/** What each feed's tipping fee is written by, such as 'tire'; the unit of mass where the scenario says nothing. */
export function feeBases({ feeds }: Pick<Scenario, 'feeds'>, mass: string): Record<string, string> {
  return Object.fromEntries(feeds.map(({ id, tippingFee }) => [id, basisOf(tippingFee) ?? mass]));
}

/** The `per` of the first rate in a series. */
function basisOf(fee: unknown): string | undefined {
  if (typeof fee !== 'object' || fee === null) return undefined;
  if (Array.isArray(fee)) return basisOf(fee[0]);
  if ('values' in fee) return basisOf(fee.values);
  return 'per' in fee && typeof fee.per === 'string' ? fee.per : undefined;
}
