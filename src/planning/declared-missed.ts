import type { Plant, PlantContract } from '../plant/plant.js';
import type { Columns } from './columns.js';

/** Mass by which a month may pass its minimum before tonnes declared missed count as delivered. */
const TOLERANCE = 1e-6;

/**
 * Contracts for which the plan declares tonnes missed in a month that it delivers. It gains by that only where
 * a tonne missed for the term costs more than one missed in a month, since those missed count for the term.
 */
export function shortMonthsToTell(plant: Plant, columns: Columns, primal: Float64Array): Set<string> {
  const told = new Set<string>();
  plant.contracts.forEach((contract, c) => {
    if (contract.termMin === undefined || contract.expected !== undefined) return;
    for (const { index: month } of plant.months) {
      if (declaresDelivered(contract, columns, c, month, primal)) told.add(contract.id);
    }
  });
  return told;
}

function declaresDelivered(
  contract: PlantContract,
  columns: Columns,
  c: number,
  month: number,
  primal: Float64Array,
): boolean {
  const missedColumn = columns.missed[c][month];
  if (missedColumn === undefined || columns.short[c].length > 0) return false;
  const missed = primal[missedColumn];
  const delivered = columns.deliver[c].reduce((sum, material) => sum + primal[material[month]], 0);
  const declared = delivered + missed - contract.monthlyMin[month];
  return missed > TOLERANCE && declared > TOLERANCE * (1 + contract.monthlyMin[month]);
}
