import type { Rate } from '../../src/scenario/schema/figures.js';
import type { Material, Outlet } from '../../src/scenario/schema/scenario.js';
import { CATALOG } from './catalog.js';
import { drawBasis, drawMovement, moved, rateIn, rounded, type StatedSeries } from './figures.js';
import { type Random, seededRandom } from './random.js';
import type { Settings } from './settings.js';

/** One to six buyers on the spot for each material with a price, each paying less than the one before. */
export function drawOutlets(settings: Settings, materials: readonly Material[], total: number): Outlet[] {
  const full = settings.size === 'full';
  return materials.flatMap((material) => {
    const entry = CATALOG[material.id]!;
    if (entry.price === undefined) return [];
    const random = seededRandom(settings.seed, `outlets ${material.id}`);
    const count = full ? random.integer(3, 4) : random.integer(1, 2);
    const best = settings.degenerate ? Math.round(entry.price[0]) : random.real(...entry.price, 0);
    const width = (total * random.real(...entry.demand!, 3)) / count;
    return Array.from({ length: count }, (_, index) => {
      const price = settings.degenerate ? best : best * (1 - 0.12 * index);
      const own = seededRandom(settings.seed, `outlet ${material.id} ${index}`);
      return drawOutlet(own, settings, material, index, price, width * own.real(0.6, 1.4, 2));
    });
  });
}

function drawOutlet(
  random: Random,
  settings: Settings,
  material: Material,
  index: number,
  price: number,
  width: number,
): Outlet {
  const basis = drawBasis(random, settings, material);
  const movement = drawMovement(random, settings, 0.12);
  const priced = (value: number) =>
    moved(rateIn(basis, value, settings.massUnit, material), movement, settings);
  const freight = random.real(3, 30, 1);
  const packing = random.real(2, 9, 1);
  const payment = random.pick([0, 15, 30, 45, 60]);
  const own = settings.degenerate ? {} : { freight, ...(random.chance(0.4) ? { packing } : {}) };
  return {
    id: `${material.id}-${'abcdef'[index]}`,
    material: material.id,
    ...drawTiers(random, settings, price, width, priced),
    ...own,
    ...(settings.degenerate ? {} : { paymentDays: payment }),
    ...drawDates(random, settings),
  };
}

/** Two to four tiers, or (one in four) one price with a limit; ties where the plant is degenerate. */
function drawTiers(
  random: Random,
  settings: Settings,
  price: number,
  width: number,
  priced: (value: number) => StatedSeries<Rate>,
): Pick<Outlet, 'price' | 'limit' | 'tiers'> {
  if (random.chance(0.25)) return { price: priced(price), limit: rounded(width, 1) };
  const count = random.integer(2, settings.size === 'full' ? 4 : 3);
  let upTo = 0;
  let value = price;
  const tiers = Array.from({ length: count }, () => {
    upTo += rounded((width / count) * random.real(0.6, 1.4, 2) + 0.5, 1);
    const tier = { upTo: rounded(upTo, 1), price: priced(value) };
    if (!settings.degenerate) value -= Math.abs(price) * random.real(0.04, 0.14, 2);
    return tier;
  });
  return { tiers };
}

/** One outlet in eight is open for a part of the horizon only. */
function drawDates(random: Random, settings: Settings): Pick<Outlet, 'from' | 'to'> {
  const from = `${settings.firstMonth}-${String(random.integer(2, 20)).padStart(2, '0')}`;
  return random.chance(0.12) && !settings.degenerate ? { from } : {};
}
