import { fewestMachineHours, optimalFace } from '../../planning/optimal-face.js';
import { certifyPlan } from '../../planning/read/read-plan.js';
import { hasIntegers, type LinearProgram, withIntegersHeld } from '../../program/linear-program.js';
import { Unfinished } from '../unfinished.js';
import type { Best } from './best.js';
import type { OfferSolver } from './offer-solver.js';

/**
 * The same value with the fewest machine-hours, whole numbers held, and the duals that worths come from. The
 * point stands as it is where the second solve does not certify.
 *
 * @throws Unfinished
 */
export function plainest(best: Best, solver: OfferSolver): Best {
  const program = hasIntegers(best.formulation.program)
    ? withIntegersHeld(best.formulation.program, best.primal)
    : best.formulation.program;
  const held = { ...best.formulation, program };
  let { primal, rowDual } = best;
  if (program !== best.formulation.program) {
    const solved = solver.alone(program);
    if (solved === undefined) throw new Unfinished('no certified answer');
    primal = solved.answer.primal;
    rowDual = solved.rowDual;
  }
  primal = withinBounds(program, primal);
  const face = optimalFace(program, primal, rowDual);
  const answer = solver.solve(fewestMachineHours(held.plant, held.columns, face), 'face');
  if (answer.kind === 'solved') {
    const fewest = withinBounds(program, answer.answer.primal);
    if (certifyPlan(held, { primal: fewest, rowDual }).accepted) primal = fewest;
  }
  return { ...best, formulation: held, primal, rowDual };
}

function withinBounds({ columnLower, columnUpper }: LinearProgram, primal: Float64Array): Float64Array {
  return primal.map((value, j) => Math.min(Math.max(value, columnLower[j]), columnUpper[j]));
}
