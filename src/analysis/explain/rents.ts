import { discountFactor } from '../../planning/discount.js';
import type { Formulation } from '../../planning/formulate.js';
import type { BoundOf } from '../../program/basis/bound-range.js';
import { rowActivities } from '../../program/linear-program.js';
import type { LimitKey, PlanLimit } from '../limits/plan-limit.js';
import type { BoundSide } from '../ranging/bound-side.js';
import type { Ranger } from '../ranging/ranger.js';
import type { Rent, RentOverMonths } from './explanation.js';
import { type AskedSides, BOTH_SIDES, bothSides, clean } from './rent-sides.js';
import { overMonthsOf } from './rents-over-months.js';

/** A point is at its limit within this, relative. */
const AT_LIMIT = 1e-7;

export interface Rents {
  readonly rents: readonly Rent[];
  readonly bindingWithoutRent: number;
  readonly rentsOverMonths: readonly RentOverMonths[];
  readonly unanswered: number;
}

/**
 * The rent of every limit that binds, on both sides, exact, with how far each holds; ranked by what the side
 * that pays brings over its range. A rent below what the certificate can tell from nothing is none.
 */
export function rentsOf(formulation: Formulation, ranger: Ranger, limits: readonly PlanLimit[]): Rents {
  const binding = bindingLimits(formulation, ranger, limits);
  const found = binding.map((limit) => rentOf(formulation, ranger, limits, limit));
  const rents = found.filter((rent) => rent !== 'unanswered' && hasRent(rent)) as Rent[];
  rents.sort(byReach);
  const overMonths = overMonthsOf(ranger, limits, binding);
  const unanswered = found.filter((rent) => rent === 'unanswered').length;
  return {
    rents,
    bindingWithoutRent: binding.length - rents.length - unanswered,
    rentsOverMonths: overMonths.filter((each): each is RentOverMonths => each !== 'unanswered'),
    unanswered: unanswered + overMonths.filter((each) => each === 'unanswered').length,
  };
}

/** The limits at which the solved point stands. */
export function bindingLimits(
  formulation: Formulation,
  ranger: Ranger,
  limits: readonly PlanLimit[],
): PlanLimit[] {
  return limits.filter((limit) => binds(ranger, limit) && isAsked(formulation, ranger, limit));
}

function binds({ program, primal }: Ranger, { place, sense }: PlanLimit): boolean {
  const row = place.kind === 'row';
  const value = row ? activityOf(program, primal)[place.index] : primal[place.index];
  const lower = row ? program.rowLower[place.index] : program.columnLower[place.index];
  const upper = row ? program.rowUpper[place.index] : program.columnUpper[place.index];
  const near = (bound: number) => Math.abs(value - bound) <= AT_LIMIT * (1 + Math.abs(bound));
  return sense === 'equal' || (sense === 'lower' ? near(lower) : near(upper));
}

/** A quality limit is met by delivering nothing: then it is none. */
function isAsked({ columns, plant }: Formulation, { primal }: Ranger, { key }: PlanLimit): boolean {
  if (key.kind !== 'quality') return true;
  const contract = plant.contracts.findIndex(({ id }) => id === key.contract);
  return columns.deliver[contract].some((material) => primal[material[key.month]] > AT_LIMIT);
}

const activities = new WeakMap<Float64Array, Float64Array>();

function activityOf(program: Ranger['program'], primal: Float64Array): Float64Array {
  const known = activities.get(primal) ?? rowActivities(program, primal);
  activities.set(primal, known);
  return known;
}

/** The rent of one limit; of a side that is not asked nothing is said. */
export function rentOf(
  { plant, program }: Formulation,
  ranger: Ranger,
  limits: readonly PlanLimit[],
  limit: PlanLimit,
  asked: AskedSides = BOTH_SIDES,
): Rent | 'unanswered' {
  const { key, unit, amount, change } = limit;
  const factor = discountFactor(plant, key.month);
  const { more, less } = bothSides(ranger, change, amount, asked);
  if (more.kind === 'unanswered' || less.kind === 'unanswered') return 'unanswered';
  const conflict = conflictOf(limits, program.columnKeys.length, more, less);
  const oneMore = more.kind === 'straight' ? clean(more.slope / factor, ranger) : undefined;
  const oneLess = less.kind === 'straight' ? clean(-less.slope / factor, ranger) : undefined;
  return {
    limit: key,
    unit,
    amount,
    ...(oneMore === undefined ? {} : { oneMore }),
    ...(oneLess === undefined ? {} : { oneLess }),
    ...ends(amount, less, more),
    ...(conflict.length > 0 ? { conflict } : {}),
    reach: Math.max(0, gainOf(oneMore, more), gainOf(oneLess === undefined ? undefined : -oneLess, less)),
  };
}

function ends(amount: number, less: BoundSide, more: BoundSide): Pick<Rent, 'holdsFrom' | 'holdsTo'> {
  return {
    ...(less.kind === 'straight' && Number.isFinite(less.end) ? { holdsFrom: amount - less.end } : {}),
    ...(more.kind === 'straight' && Number.isFinite(more.end) ? { holdsTo: amount + more.end } : {}),
  };
}

/** Slope · range; 0 · ∞ is nothing. */
function gainOf(slope: number | undefined, side: BoundSide): number {
  if (slope === undefined || slope <= 0 || side.kind !== 'straight') return 0;
  return slope * side.end;
}

function hasRent({ oneMore, oneLess }: Rent): boolean {
  return oneMore !== 0 || oneLess !== 0;
}

/** The order of rents: the largest first. */
export function byReach(a: Rent, b: Rent): number {
  return b.reach - a.reach || size(b) - size(a);
}

function size({ oneMore = 0, oneLess = 0 }: Rent): number {
  return Math.max(Math.abs(oneMore), Math.abs(oneLess));
}

/** The limits among the bounds that rule a side out. */
function conflictOf(
  limits: readonly PlanLimit[],
  columns: number,
  ...sides: readonly BoundSide[]
): LimitKey[] {
  const proof = sides.flatMap((side) => (side.kind === 'infeasible' ? side.proof : []));
  if (proof.length === 0) return [];
  return limits
    .filter((limit) => proof.some((bound) => isBoundOf(limit, columns, bound)))
    .map(({ key }) => key);
}

function isBoundOf({ place, sense }: PlanLimit, columns: number, { variable, bound }: BoundOf): boolean {
  const own = place.kind === 'row' ? columns + place.index : place.index;
  return own === variable && (sense === 'equal' || sense === bound);
}
