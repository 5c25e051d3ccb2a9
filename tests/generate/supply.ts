import type { Disposal, Feed, Material, Scenario } from '../../src/scenario/schema/scenario.js';
import { CATALOG } from './catalog.js';
import { drawBasis, drawMovement, moved, rateIn, rounded } from './figures.js';
import { type Range, seededRandom } from './random.js';
import type { Settings } from './settings.js';

/** Currency per mass unit and share of the plant's feed, all invented. */
const SOURCES: Readonly<Record<string, { material: string; fee: Range; weight: Range }>> = {
  'car-dealers': { material: 'car-tires', fee: [30, 180], weight: [0.6, 1] },
  'truck-fleets': { material: 'truck-tires', fee: [-10, 120], weight: [0.4, 0.9] },
  'car-haulers': { material: 'car-tires', fee: [0, 110], weight: [0.3, 0.8] },
  'mixed-cleanup': { material: 'mixed-tires', fee: [40, 200], weight: [0.15, 0.4] },
  retreaders: { material: 'buffings', fee: [-140, -40], weight: [0.03, 0.08] },
};

/** Names of the sources that bring tires to this plant. */
export function drawSources(settings: Settings): string[] {
  const random = seededRandom(settings.seed, 'sources');
  const names = Object.keys(SOURCES);
  if (settings.size === 'full') return random.chance(0.8) ? names : names.slice(0, 4);
  return random.sample(names.slice(0, 3), random.integer(1, 2));
}

export function sourceMaterial(source: string): string {
  return SOURCES[source]!.material;
}

/** Feeds that together bring `total` a month when all that can be had is taken. Committed mass is set to a share of it. */
export function drawFeeds(
  settings: Settings,
  sources: readonly string[],
  materials: readonly Material[],
  total: number,
): Feed[] {
  const random = seededRandom(settings.seed, 'feeds');
  const weights = sources.map((source) => random.real(...SOURCES[source]!.weight, 2));
  const sum = weights.reduce((a, b) => a + b, 0);
  return sources.map((source, index): Feed => {
    const { material, fee } = SOURCES[source]!;
    const own = seededRandom(settings.seed, `feed ${source}`);
    const found = materials.find(({ id }) => id === material)!;
    const tippingFee = rateIn(drawBasis(own, settings, found), own.real(...fee, 0), settings.massUnit, found);
    const available = rounded((total * weights[index]!) / sum, 0);
    return {
      id: source,
      material,
      tippingFee: moved(tippingFee, drawMovement(own, settings, 0.1), settings),
      ...(own.chance(0.6) ? { haulage: own.real(4, 28, 1) } : {}),
      committed: rounded(available * own.real(0.1, settings.tight ? 0.78 : 0.6, 2), 0),
      available: moved(available, drawMovement(own, settings, 0.2), settings),
      ...(own.chance(0.6) ? { paymentDays: own.pick([10, 15, 30, 45]) } : {}),
    };
  });
}

/** How the tonnes that are not committed answer the fee: an elasticity, or a table. */
export function addResponses(settings: Settings, feeds: readonly Feed[]): Feed[] {
  if (!settings.has.response) return [...feeds];
  return feeds.map((feed): Feed => {
    const random = seededRandom(settings.seed, `response ${feed.id}`);
    const fee = feed.tippingFee;
    if (typeof fee !== 'number' || fee <= 0 || random.chance(0.3)) return feed;
    if (random.chance(0.6)) {
      const at = rounded(fee * random.real(0.85, 1.15, 2), 2);
      return { ...feed, response: { elasticity: -random.real(0.4, 2.4, 2), at } };
    }
    const available = least(feed.available as number | number[] | { values: number[] });
    const committed = feed.committed as number;
    const table = [0.8, 1.05, 1.3].map((factor, index) => ({
      fee: rounded(fee * factor, 2),
      available: Math.floor(10 * (committed + (available - committed) * [1, 0.8, 0.35][index]!)) / 10,
    }));
    return { ...feed, response: table };
  });
}

/** A disposal without a limit for everything but whole tires, and a cheaper one with a limit. */
export function drawDisposals(settings: Settings, materials: readonly Material[], total: number): Disposal[] {
  const random = seededRandom(settings.seed, 'disposals');
  const wastes = materials
    .filter(({ id }) => CATALOG[id]!.price === undefined && !fed(id))
    .map(({ id }) => id);
  const rubber = materials
    .filter(({ id }) => CATALOG[id]!.price !== undefined || id === 'buffings')
    .map(({ id }) => id);
  const limit = settings.tight ? { limit: rounded(total * random.real(0.01, 0.06, 3), 1) } : {};
  const landfill: Disposal = {
    id: 'landfill',
    materials: wastes,
    charge: moved(random.real(60, 110, 1), drawMovement(random, settings, 0.08), settings),
    haulage: random.real(4, 14, 1),
    ...limit,
  };
  const monofill: Disposal = {
    id: 'monofill',
    materials: rubber,
    charge: random.real(30, 75, 1),
    haulage: random.real(3, 12, 1),
  };
  const incinerator: Disposal = {
    id: 'incinerator',
    materials: wastes.includes('fiber') ? ['fiber'] : wastes,
    charge: random.real(25, 58, 1),
    limit: rounded(total * random.real(0.005, 0.03, 3), 1),
  };
  return [landfill, monofill, ...(random.chance(0.6) ? [incinerator] : [])];
}

export function drawFixedCosts(settings: Settings): NonNullable<Scenario['fixedCosts']> {
  const random = seededRandom(settings.seed, 'fixed costs');
  const scale = settings.size === 'full' ? 3 : 1;
  const all = ['rent and insurance', 'administration', 'permits and monitoring'].map((name) => ({
    name,
    perMonth: moved(random.integer(2000, 14000) * scale, drawMovement(random, settings, 0.03), settings),
  }));
  return all.slice(0, random.integer(1, 3));
}

function fed(material: string): boolean {
  return Object.values(SOURCES).some((source) => source.material === material);
}

function least(series: number | number[] | { values: number[] }): number {
  if (typeof series === 'number') return series;
  return Math.min(...(Array.isArray(series) ? series : series.values));
}
