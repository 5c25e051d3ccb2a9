import type { Contract, Material } from '../../src/scenario/schema/scenario.js';
import { CATALOG } from './catalog.js';
import { type ContractSurroundings, drawLife, drawPrice, drawQuality } from './contract-terms.js';
import { drawMovement, moved, rounded } from './figures.js';
import { type Random, seededRandom } from './random.js';
import type { Settings } from './settings.js';

/** Contracts for different products: soft or hard minimums by the month, called by the buyer, or over the term. */
export function drawContracts(settings: Settings, around: ContractSurroundings): Contract[] {
  if (!settings.has.contracts) return [];
  const random = seededRandom(settings.seed, 'contracts');
  const products = around.materials.filter(({ id }) => CATALOG[id]!.price !== undefined);
  const count = settings.size === 'full' ? random.integer(4, 6) : random.integer(1, 2);
  const chosen = random.sample(products, count);
  const hardLeft = { ...around.left };
  return chosen.map((material, index) => {
    const own = seededRandom(settings.seed, `contract ${material.id}`);
    return drawContract(own, settings, around, material, `contract-${index + 1}`, hardLeft);
  });
}

function drawContract(
  random: Random,
  settings: Settings,
  around: ContractSurroundings,
  material: Material,
  id: string,
  hardLeft: Record<string, number>,
): Contract {
  const entry = CATALOG[material.id]!;
  const volume = Math.max(2, around.total * random.real(...entry.demand!, 3) * random.real(0.3, 1.1, 2));
  const value = random.real(...entry.price!, 0) * random.real(0.75, 1.15, 2);
  const kind = random.pick(['soft', 'soft', 'hard', 'called', 'term'] as const);
  const common = {
    id,
    buyer: `Invented buyer of ${material.id}`,
    materials: [material.id],
    ...drawLife(random, settings),
    price: drawPrice(random, settings, around, material, value),
    freight: random.real(4, 26, 1),
    ...(random.chance(0.3) ? { packing: random.real(2, 8, 1) } : {}),
    paymentDays: random.pick([0, 30, 45, 60]),
  };
  const charge = rounded(value * random.real(0.15, 0.8, 2), 1);
  const shortfall = { shortfall: { charge } };
  const termShortfall = { shortfall: { charge, termCharge: rounded(charge * 1.2, 1) } };
  const dearer = random.chance(0.5);
  const min = rounded(volume * random.real(0.4, 0.9, 2), 1);
  const max = rounded(volume * random.real(1, 1.6, 2), 1);
  if (kind === 'hard') return { ...common, monthly: drawHardMonthly(settings, material, volume, hardLeft) };
  if (kind === 'called' && settings.has.buyerCalls) {
    return {
      ...common,
      call: { by: 'buyer', expected: moved(min, drawMovement(random, settings, 0.2), settings) },
      ...shortfall,
    };
  }
  const term = kind === 'term' && settings.has.termContracts ? drawTerm(random, settings, volume) : {};
  return {
    ...common,
    monthly: {
      ...(kind === 'term' ? {} : { min }),
      max: moved(max, drawMovement(random, settings, 0.1), settings),
    },
    ...term,
    ...drawQuality(random, settings, around, material),
    ...('term' in term && dearer ? termShortfall : shortfall),
  };
}

/** A hard minimum of at most half of what the plant surely has; in a tight plant it may be more than there is. */
function drawHardMonthly(
  settings: Settings,
  material: Material,
  volume: number,
  hardLeft: Record<string, number>,
): Contract['monthly'] {
  const sure = (hardLeft[material.id] ?? 0) * 0.5;
  hardLeft[material.id] = (hardLeft[material.id] ?? 0) - sure;
  const min = settings.tight ? volume : Math.floor(Math.min(sure, volume) * 10) / 10;
  return { min, max: rounded(Math.max(min * 1.5, volume) + 1, 1) };
}

/** A minimum and maximum over the life, some of it delivered before where the life began before. */
function drawTerm(random: Random, settings: Settings, volume: number): Pick<Contract, 'term'> {
  const total = volume * settings.months;
  const min = rounded(total * random.real(0.5, 0.9, 2), 1);
  const delivered = rounded(min * random.real(0, 0.3, 2), 1);
  return {
    term: {
      min,
      max: rounded(min * random.real(1.1, 1.6, 2), 1),
      ...(random.chance(0.4) ? { delivered } : {}),
    },
  };
}
