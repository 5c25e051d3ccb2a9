import type { OpenFigure, SignedSet } from './offer-sets.js';

/** What the best of some sets is worth: a plan, and what no plan of them is worth more than. */
export interface Family {
  readonly value: number;
  readonly bound: number;
}

/** Relative to the scale. */
const ROUNDING = 1e-6;

/** What is lost by choosing from other sets; `low` and `high` where the gaps leave it open. */
export function openOf(best: SignedSet, other: Family | undefined): { figure?: number } & OpenFigure {
  if (other === undefined || other.value === Number.NEGATIVE_INFINITY) return {};
  const figure = Math.max(0, best.value - other.value);
  if (Math.max(best.bound - best.value, other.bound - other.value) <= ROUNDING * best.scale)
    return { figure };
  return { figure, low: Math.max(0, best.value - other.bound), high: best.bound - other.value };
}

/** Whether another set may be worth more than the best one. */
export function mayBeBetter(best: SignedSet, { bound }: Pick<SignedSet, 'bound'>): boolean {
  return bound - best.value > ROUNDING * best.scale;
}
