import type { Plant } from '../../plant/plant.js';
import type { WouldTake } from './explanation.js';

/** Mass below which nothing goes to an outlet. */
export const NOTHING = 1e-7;

/**
 * The first tier of the outlet that gets nothing in any month and needs the smallest rise of its price to get
 * something, in the month of that rise.
 *
 * @param entries those of the first tiers, of all months.
 */
export function nearestIdleOutlet(plant: Plant, entries: readonly WouldTake[]): WouldTake | undefined {
  const first = entries.filter(({ what }) => what.kind === 'outlet' && what.tier === 0);
  const idle = first.filter(
    ({ what, rise }) =>
      rise !== undefined && rise > 0 && isIdle(plant, first, what.kind === 'outlet' ? what.outlet : ''),
  );
  return idle.reduce<WouldTake | undefined>(
    (nearest, each) => (nearest === undefined || (each.rise ?? 0) < (nearest.rise ?? 0) ? each : nearest),
    undefined,
  );
}

function isIdle(plant: Plant, first: readonly WouldTake[], outlet: string): boolean {
  const own = first.filter(({ what }) => what.kind === 'outlet' && what.outlet === outlet);
  const width = plant.outlets.find(({ id }) => id === outlet)?.tiers[0].width ?? [];
  return own.length === width.filter((room) => room > 0).length && own.every(({ used }) => used <= NOTHING);
}
