import type { PlanProgram } from '../../planning/formulate.js';
import type { ColumnKey } from '../../planning/keys.js';

/** Whole numbers as they are, or only those that tell short months (shifts and windows in parts). */
export type Counting = 'whole' | 'in parts';

/** The program with the whole numbers that are counted. */
export function countedProgram(program: PlanProgram, counting: Counting): PlanProgram {
  if (counting === 'whole') return program;
  const integer = program.integer.map((flag, j) => (isShift(program.columnKeys[j]) ? 0 : flag));
  return { ...program, integer };
}

/** Whether shifts or windows are whole numbers in it. */
export function hasShifts({ integer, columnKeys }: PlanProgram): boolean {
  return integer.some((flag, j) => flag === 1 && isShift(columnKeys[j]));
}

function isShift({ kind }: ColumnKey): boolean {
  return kind === 'shifts' || kind === 'open' || kind === 'on';
}
