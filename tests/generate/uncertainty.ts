import type { Feed, Outlet, Scenario } from '../../src/scenario/schema/scenario.js';
import { seededRandom } from './random.js';
import type { Settings } from './settings.js';

type Uncertainty = NonNullable<Scenario['uncertainty']>;

/** Prices of a few outlets that move together, and what one feed brings. */
export function drawUncertainty(
  settings: Settings,
  outlets: readonly Outlet[],
  feeds: readonly Feed[],
): Uncertainty {
  if (!settings.has.uncertainty) return [];
  const random = seededRandom(settings.seed, 'uncertainty');
  const prices = random.sample(outlets, 3).map((outlet, index): Uncertainty[number] => ({
    target:
      outlet.tiers === undefined ? `/outlets/${outlet.id}/price` : `/outlets/${outlet.id}/tiers/0/price`,
    distribution: { kind: 'lognormal', sigma: random.real(0.05, 0.25, 2) },
    group: 'market',
    ...(index === 0 ? {} : { correlation: random.real(0.3, 1, 1) }),
  }));
  const feed = random.pick(feeds);
  return [
    ...prices,
    {
      target: `/feeds/${feed.id}/tippingFee`,
      distribution: { kind: 'triangular', low: 0.8, mode: 1, high: 1.15 },
      ...(random.chance(0.5) ? { eachMonth: true } : {}),
    },
  ];
}
