import { type Formulation, formulate } from '../../planning/formulate.js';
import type { SolvedProgram } from '../plan-answer.js';

/** The formulation of a solved plan with its whole numbers free again. */
export function freeFormulation({ formulation }: SolvedProgram): Formulation {
  const { plant, columns } = formulation;
  const told = plant.contracts.filter((_, c) => columns.short[c].length > 0).map(({ id }) => id);
  return formulate(plant, { tellShortMonths: new Set(told) });
}
