import type { Plant } from '../plant/plant.js';

/**
 * What one unit of currency, `days` after the end of a month, counts at the start of the horizon:
 * (1 + discountRate)^(−n/365), n the days since the horizon began.
 */
export function discountFactor(plant: Plant, month: number, days = 0): number {
  return (1 + plant.discountRate) ** (-(plant.months[month].endDay + days) / 365);
}
