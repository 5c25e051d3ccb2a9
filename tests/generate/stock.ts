import type { Feed, Material, Scenario } from '../../src/scenario/schema/scenario.js';
import { drawMovement, moved, rounded } from './figures.js';
import { seededRandom } from './random.js';
import type { Settings } from './settings.js';

type Store = NonNullable<Scenario['stores']>[number];

const NEVER_HELD: readonly Material['form'][] = ['fiber', 'residue', 'other'];

/** Stocks that can stay as they open, so that they never stand in the way of a plan. */
export function addStocks(
  settings: Settings,
  materials: readonly Material[],
  feeds: readonly Feed[],
  total: number,
): Material[] {
  if (!settings.has.stock) return [...materials];
  return materials.map((material): Material => {
    const random = seededRandom(settings.seed, `stock ${material.id}`);
    const isFed = feeds.some((feed) => feed.material === material.id);
    if (NEVER_HELD.includes(material.form) || random.chance(isFed ? 0.2 : 0.5)) return material;
    const capacity = rounded(total * random.real(0.1, 0.5, 2), 0);
    const opening = rounded(capacity * random.real(0, 0.6, 2), 0);
    const min = random.chance(0.3) ? { min: rounded(opening * random.real(0.2, 1, 1), 1) } : {};
    const holdingCost = random.real(0.2, 2.5, 1);
    const closing = {
      min: rounded(Math.max(min.min ?? 0, opening * random.real(0, 1, 1)), 1),
      ...(random.chance(0.5) ? { value: random.real(0, 20, 1) } : {}),
    };
    return {
      ...material,
      stock: {
        capacity,
        opening,
        ...min,
        ...(random.chance(0.7) ? { closing } : {}),
        holdingCost: moved(holdingCost, drawMovement(random, settings, 0.1), settings),
      },
    };
  });
}

/** A yard for whole tires and a hall for the rest, both larger than what they open with. */
export function drawStores(settings: Settings, materials: readonly Material[]): Store[] {
  if (!settings.has.stores) return [];
  const random = seededRandom(settings.seed, 'stores');
  const held = materials.filter((material) => material.stock !== undefined);
  const yard = held.filter((material) => material.form === 'whole');
  const hall = held.filter((material) => material.form !== 'whole');
  return [
    storeOf('yard', yard, random.real(1.05, 1.8, 2), 'permit limit'),
    storeOf('hall', hall, random.real(1.05, 1.8, 2)),
  ].flat();
}

function storeOf(id: string, materials: readonly Material[], slack: number, note?: string): Store[] {
  if (materials.length === 0) return [];
  const opening = materials.reduce((sum, { stock }) => sum + (stock!.opening ?? 0), 0);
  const capacity = rounded(opening * slack + 20, 0);
  return [{ id, materials: materials.map((material) => material.id), capacity, ...(note ? { note } : {}) }];
}
