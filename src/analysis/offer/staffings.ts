import type { PlanProgram } from '../../planning/formulate.js';
import { withIntegersHeld } from '../../program/linear-program.js';

/** Plans whose whole numbers are tried in other programs. */
const MOST_STAFFINGS = 8;

/** The whole numbers of plans that were found, to be tried in other programs of the same shape. */
export class Staffings {
  private readonly byShape = new Map<string, readonly Float64Array[]>();

  /** A plan with the whole numbers of an earlier one takes its place. */
  add(shape: string, program: PlanProgram, primal: Float64Array): void {
    const isOther = (earlier: Float64Array) =>
      program.integer.some((flag, j) => flag === 1 && Math.round(earlier[j]) !== Math.round(primal[j]));
    const others = this.of(shape).filter(isOther);
    this.byShape.set(shape, [...others, primal].slice(-MOST_STAFFINGS));
  }

  /** The program held at the whole numbers of each plan, the latest first; not at those of `except`. */
  held(shape: string, program: PlanProgram, except?: Float64Array): PlanProgram[] {
    return this.of(shape)
      .filter((primal) => primal !== except)
      .reverse()
      .map((primal) => withIntegersHeld(program, primal));
  }

  private of(shape: string): readonly Float64Array[] {
    return this.byShape.get(shape) ?? [];
  }
}
