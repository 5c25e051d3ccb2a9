import { monthsOf } from '../../src/calendar/month.js';
import type { Contract, Material, Scenario } from '../../src/scenario/schema/scenario.js';
import { CATALOG } from './catalog.js';
import { rateIn, rounded } from './figures.js';
import { type Random, seededRandom } from './random.js';

/**
 * A contract that a buyer might put to the plant, in force inside the horizon: volumes firm, optional or
 * both, with or without a shortfall charge. Money is of the scale that the catalog of materials has.
 */
export function generateOffer(seed: number, scenario: Scenario): Contract {
  const random = seededRandom(seed, 'offer');
  const products = scenario.materials.filter(({ id }) => CATALOG[id]?.price !== undefined);
  const material = random.pick(products);
  const alike = products.filter(({ id, form }) => id !== material.id && form === material.form);
  const second = random.chance(0.3) && alike.length > 0 ? [random.pick(alike)] : [];
  const [low, high] = CATALOG[material.id]!.price!;
  const value = rounded(random.real(low * 0.7, high * 1.1, 1), 1);
  const volume = drawVolume(random, scenario, material);
  const firm = random.pick(['firm', 'optional', 'both', 'term'] as const);
  return {
    id: `offer-${seed}`,
    buyer: 'Invented buyer with an offer',
    materials: [material.id, ...second.map(({ id }) => id)],
    ...drawDates(random, scenario),
    price: drawPrice(random, scenario, [material, ...second], value),
    ...volumesOf(random, firm, volume, scenario.horizon.months),
    ...(firm !== 'optional' && random.chance(0.7)
      ? { shortfall: { charge: rounded(value * random.real(0.1, 0.9, 2), 1) } }
      : {}),
    ...(random.chance(0.6) ? { freight: random.real(3, 25, 1) } : {}),
    ...(random.chance(0.3) ? { packing: random.real(2, 8, 1) } : {}),
    ...(random.chance(0.6) ? { paymentDays: random.pick([15, 30, 45, 60]) } : {}),
  };
}

/** Up to a quarter of what the outlets of the material take, at least 5. */
function drawVolume(random: Random, scenario: Scenario, material: Material): number {
  const feed = scenario.feeds.reduce((sum, { available }) => sum + firstOf(available), 0);
  const [low, high] = CATALOG[material.id]!.demand!;
  return Math.max(5, rounded(feed * random.real(low / 4, high / 2, 3), 1));
}

function volumesOf(
  random: Random,
  firm: 'firm' | 'optional' | 'both' | 'term',
  volume: number,
  months: number,
): Pick<Contract, 'monthly' | 'term'> {
  const min = rounded(volume * random.real(0.4, 0.9, 2), 1);
  if (firm === 'firm') return { monthly: { min: volume, max: volume } };
  if (firm === 'optional') return { monthly: { max: volume } };
  if (firm === 'both') return { monthly: { min, max: volume } };
  return {
    monthly: { max: volume },
    term: { min: rounded(min * months, 1), max: rounded(volume * months, 1) },
  };
}

function drawDates(random: Random, { horizon }: Scenario): Pick<Contract, 'from' | 'to'> {
  const months = monthsOf(horizon.firstMonth, horizon.months);
  const last = months.at(-1)!;
  const from = random.chance(0.7) ? 1 : random.integer(2, 12);
  const to = random.chance(0.7) ? last.days : random.integer(15, last.days);
  const date = (label: string, day: number) => `${label}-${String(day).padStart(2, '0')}`;
  return { from: date(horizon.firstMonth, from), to: date(last.label, to) };
}

/** Plain, by the pound, by the energy, by material, or after an index of the scenario. */
function drawPrice(
  random: Random,
  scenario: Scenario,
  materials: readonly Material[],
  value: number,
): Contract['price'] {
  const [material, second] = materials;
  const index = scenario.indices?.[0];
  const unit = scenario.units.mass;
  if (index !== undefined && random.chance(0.4)) {
    const collar = random.chance(0.5)
      ? { floor: rounded(value * 0.8, 1), ceiling: rounded(value * 1.3, 1) }
      : {};
    return { base: value, index: index.id, passThrough: random.real(0.3, 1, 2), ...collar };
  }
  const byEnergy = materials.every(({ heatingValue }) => heatingValue !== undefined);
  if (byEnergy && random.chance(0.6))
    return rateIn(random.pick(['GJ', 'MMBtu'] as const), value, unit, material!);
  if (second !== undefined && random.chance(0.5)) {
    return {
      byMaterial: { [material!.id]: value, [second.id]: rounded(value * random.real(0.8, 1.2, 2), 1) },
    };
  }
  return random.chance(0.3) ? rateIn('lb', value, unit, material!) : value;
}

function firstOf(series: Scenario['feeds'][number]['available']): number {
  if (typeof series === 'number') return series;
  return (Array.isArray(series) ? series : series.values)[0]!;
}
