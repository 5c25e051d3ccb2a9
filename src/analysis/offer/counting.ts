import type { PlanProgram } from '../../planning/formulate.js';

/** Whole numbers as they are, or only those that tell short months (shifts and windows in parts). */
export type Counting = 'whole' | 'in parts';

/** The program with the whole numbers that are counted. */
export function countedProgram(program: PlanProgram, counting: Counting): PlanProgram {
  if (counting === 'whole') return program;
  const integer = program.integer.map((flag, j) => (program.columnKeys[j].kind === 'short' ? flag : 0));
  return { ...program, integer };
}

/** Whether shifts or windows are whole numbers in it. */
export function hasShifts({ integer, columnKeys }: PlanProgram): boolean {
  return integer.some((flag, j) => flag === 1 && columnKeys[j].kind !== 'short');
}
