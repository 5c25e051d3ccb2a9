import { discountFactor } from '../../planning/discount.js';
import type { Formulation } from '../../planning/formulate.js';
import type { PlantContract } from '../../plant/plant.js';
import type { SolvedPoint } from './solve-point.js';

/**
 * Whether the linear program's value may be taken for the plan's on the way between two of its optima. Where a
 * tonne missed for the term costs more than one missed in a month, it could declare tonnes missed that it
 * delivers, which a plan may not. A mix of two plans is free of it where in each month either both miss nothing
 * or both deliver no more than what they do not miss.
 */
export function isFreeOfDeclaredTonnes(
  { plant, columns }: Formulation,
  a: SolvedPoint,
  b: SolvedPoint,
): boolean {
  return plant.contracts.every((contract, c) => {
    if (contract.termMin === undefined || contract.expected !== undefined) return true;
    return plant.months.every(({ index: month }) => {
      const missed = columns.missed[c]?.[month];
      if (missed === undefined || !gains(plant, contract, month)) return true;
      const row = a.program.rowKeys.findIndex(
        (key) => key.kind === 'contractMinimum' && key.contract === contract.id && key.month === month,
      );
      if (row < 0) return true;
      const figures = [a, b].map(({ program, primal }) => {
        const delivered = columns.deliver[c].reduce((sum, material) => sum + primal[material[month]], 0);
        const min = program.rowLower[row];
        const small = TOLERANCE * (1 + min);
        return { isMissing: primal[missed] > small, isOver: delivered + primal[missed] - min > small };
      });
      return !figures.some(({ isMissing }) => isMissing) || !figures.some(({ isOver }) => isOver);
    });
  });
}

const TOLERANCE = 1e-6;

/** A tonne declared missed costs the month's charge and saves the term's. */
function gains(plant: Formulation['plant'], contract: PlantContract, month: number): boolean {
  const { shortfall, lastMonth } = contract;
  if (shortfall === undefined || lastMonth === undefined) return false;
  const cost = discountFactor(plant, month) * shortfall.charge[month];
  return cost < discountFactor(plant, lastMonth) * shortfall.termCharge;
}
