import { monthsOf } from '../../src/calendar/month.js';
import type { Contract, Index, Material } from '../../src/scenario/schema/scenario.js';
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

/** From before the horizon, its start or a day within it, to a day within it, its end or beyond. */
export function drawLife(random: Random, settings: Settings): Pick<Contract, 'from' | 'to'> {
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

/** A rate in some basis, a series, one by material, or an index formula, half the time between a floor and a ceiling. */
export function drawPrice(
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

/** A second material and a limit between the two, so that one must be blended into the other. */
export function drawQuality(
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
