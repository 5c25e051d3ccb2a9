import { monthsOf } from '../../src/calendar/month.js';
import type { Contract, Index, Material } from '../../src/scenario/schema/scenario.js';
import { CATALOG } from './catalog.js';
import { assayOf, drawBasis, drawMovement, moved, rateIn, rounded } from './figures.js';
import { type Random, seededRandom } from './random.js';
import type { Settings } from './settings.js';

export interface ContractSurroundings {
  readonly materials: readonly Material[];
  readonly indices: readonly Index[];
  /** Mass a month that the plant can take in. */
  readonly total: number;
  /** Mass a month that the plant can surely deliver of each material. */
  readonly left: Readonly<Record<string, number>>;
}

/** One price index and, half the time, one in points, that move from month to month. */
export function drawIndices(settings: Settings): Index[] {
  if (!settings.has.indexPrices) return [];
  const random = seededRandom(settings.seed, 'indices');
  const values = (base: number) =>
    Array.from({ length: settings.months }, () => rounded(base * random.real(0.8, 1.25, 3), 2));
  const base = random.integer(180, 320);
  const price: Index = { id: 'rubber-index', kind: 'price', base, values: values(base) };
  const points: Index = { id: 'steel-index', kind: 'points', base: 100, values: values(100) };
  return [price, points];
}

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
  const volume = Math.max(2, around.total * random.real(...entry.demand!, 3) * random.real(0.2, 0.6, 2));
  const value = random.real(...entry.price!, 0) * random.real(0.9, 1.15, 2);
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
  const shortfall = {
    shortfall: { charge, ...(random.chance(0.4) ? { termCharge: rounded(charge * 1.2, 1) } : {}) },
  };
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
    ...shortfall,
  };
}

/** From before the horizon, its start or a day within it, to a day within it, its end or beyond. */
function drawLife(random: Random, settings: Settings): Pick<Contract, 'from' | 'to'> {
  const months = monthsOf(settings.firstMonth, settings.months);
  const day = (label: string, number: number) => `${label}-${String(number).padStart(2, '0')}`;
  const last = months.at(-1)!;
  const year = Number(settings.firstMonth.slice(0, 4));
  const from = random.pick([
    `${year - 1}-${settings.firstMonth.slice(5)}-01`,
    day(settings.firstMonth, 1),
    day(settings.firstMonth, random.integer(2, 14)),
  ]);
  const to = random.pick([
    day(last.label, last.days),
    day(last.label, last.days),
    day(last.label, random.integer(16, last.days)),
    `${year + 1}-12-31`,
  ]);
  return { from, to };
}

function drawPrice(
  random: Random,
  settings: Settings,
  around: ContractSurroundings,
  material: Material,
  value: number,
): Contract['price'] {
  const basis = drawBasis(random, settings, material);
  const rate = rateIn(basis, value, settings.massUnit, material);
  const byMaterial = random.chance(0.15);
  const passThrough = random.real(0.3, 1, 2);
  const collared = random.chance(0.5);
  if (around.indices.length > 0 && random.chance(0.45)) {
    return {
      base: rounded(value, 2),
      index: random.pick(around.indices).id,
      passThrough,
      ...(collared ? { floor: rounded(value * 0.85, 2), ceiling: rounded(value * 1.2, 2) } : {}),
    };
  }
  if (byMaterial && !settings.has.quality) return { byMaterial: { [material.id]: rate } };
  return moved(rate, drawMovement(random, settings, 0.08), settings);
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

/** A second material and a limit between the two, so that one must be blended into the other. */
function drawQuality(
  random: Random,
  settings: Settings,
  { materials }: ContractSurroundings,
  material: Material,
): Partial<Contract> {
  const { steel } = assayOf(material);
  if (!settings.has.quality || steel === undefined) return {};
  const others = materials.filter(
    (other) => other.id !== material.id && other.form === material.form && assayOf(other).steel !== undefined,
  );
  if (others.length === 0) {
    return { quality: [{ measure: 'steel', max: rounded(steel * random.real(1.01, 1.3, 2)) }] };
  }
  const other = random.pick(others);
  const weight = random.real(0.2, 0.8, 2);
  const between = (a: number, b: number) => rounded(weight * a + (1 - weight) * b);
  const heats = [material.heatingValue, other.heatingValue].filter((heat) => typeof heat === 'number');
  const quality = [{ measure: 'steel', max: between(steel, assayOf(other).steel!) }];
  const heat = { measure: 'heatingValue', min: between(heats[0] ?? 0, heats[1] ?? 0) };
  return {
    materials: [material.id, other.id],
    quality: heats.length === 2 && random.chance(0.5) ? [...quality, heat] : quality,
  };
}
