import type { AffineChange } from '../../program/affine-change.js';
import { type BoundSide, boundSide } from '../ranging/bound-side.js';
import type { Ranger } from '../ranging/ranger.js';

export interface AskedSides {
  readonly more: boolean;
  readonly less: boolean;
}

export const BOTH_SIDES: AskedSides = { more: true, less: true };
const NOT_ASKED: BoundSide = { kind: 'infeasible', proof: [] };

/** What a limit's amount moves the value by, on the sides that are asked; never below an amount of 0. */
export function bothSides(ranger: Ranger, change: AffineChange, amount: number, asked = BOTH_SIDES) {
  const reach = amount > 0 ? { reach: amount } : {};
  return {
    more: asked.more ? boundSide(ranger, change, 1, { size: amount }) : NOT_ASKED,
    less: asked.less ? boundSide(ranger, change, -1, { size: amount, ...reach }) : NOT_ASKED,
  };
}

/** A slope that moves the value by less than its tolerance over a whole unit is rounding. */
export function clean(slope: number, { tolerance }: Ranger): number {
  return Math.abs(slope) <= tolerance ? 0 : slope;
}
