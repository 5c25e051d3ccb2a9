import type { Formulation } from '../../planning/formulate.js';
import type { Segment } from '../../program/piecewise-linear.js';
import type { AffinePiece } from '../variant/affine-pieces.js';
import { movesBetween, type PlanMove, type Quantity } from '../variant/plan-quantities.js';
import type { TracedCurve } from './exact-curve.js';
import { type PlanStretch, planStretches } from './plan-stretches.js';
import type { PointPlan, PointSolver, SolvedPoint } from './solve-point.js';
import type { SweepPoint } from './sweep-answer.js';

/** A stretch of one segment on which the plan stands still (a convex curve) or moves steadily (a concave one). */
interface Stretch extends PlanStretch {
  readonly segment: Segment<SolvedPoint>;
  /** Whether the segment begins here: the value has a kink. */
  readonly isFirst: boolean;
}

/**
 * The points of a traced curve with what changes in the plan at each. Where only the objective moves, one plan is
 * the best along a whole segment and jumps to another at the break. Where right sides move, the plan moves along
 * and turns: at the breaks, and also inside a segment, where the value runs straight on.
 */
export function curvePoints(
  { curve, solved }: TracedCurve,
  manner: 'jump' | 'turn',
  piece: AffinePiece,
  formulation: Formulation,
  points: PointSolver,
): SweepPoint[] {
  const stretches = curve.segments.flatMap((segment): Stretch[] => {
    const plans =
      manner === 'jump'
        ? [standing(segment, formulation, points)]
        : steady(turning(segment, solved, piece, formulation, points));
    return plans.map((plan, k) => ({ ...plan, segment, isFirst: k === 0 }));
  });
  const result = stretches.map((stretch, k) => startOf(stretch, stretches[k - 1], manner));
  const last = stretches[stretches.length - 1];
  const { end: at, endValue: value, slope: slopeLeft } = last.segment;
  if (at > curve.segments[0].start) {
    result.push({ at, value, slopeLeft, kind: 'end', tonnesLeft: last.end.tonnes });
  }
  return result;
}

function startOf(stretch: Stretch, before: Stretch | undefined, manner: 'jump' | 'turn'): SweepPoint {
  const { from: at, to, segment, isFirst, start } = stretch;
  const { slope } = segment;
  return {
    at,
    value: isFirst ? segment.startValue : segment.startValue + slope * (at - segment.start),
    ...(before === undefined ? {} : { slopeLeft: before.segment.slope }),
    ...(to > at ? { slopeRight: slope } : {}),
    kind: before === undefined ? 'end' : isFirst ? 'breakpoint' : 'plan change',
    ...(before === undefined ? {} : { tonnesLeft: before.end.tonnes }),
    tonnesRight: start.tonnes,
    ...(before === undefined ? {} : { change: { manner, moves: changeAt(manner, before, stretch) } }),
    ...onward(stretch),
  };
}

function standing(
  { start: from, end: to, sample }: Segment<SolvedPoint>,
  formulation: Formulation,
  points: PointSolver,
): PlanStretch {
  const plan = points.plan(formulation, sample.from);
  return { from, to, start: plan, end: plan };
}

/** Where rounding leaves no more to be told: from the plan at the start straight to that at the end. */
function turning(
  segment: Segment<SolvedPoint>,
  solved: ReadonlyMap<number, SolvedPoint>,
  piece: AffinePiece,
  formulation: Formulation,
  points: PointSolver,
): PlanStretch[] {
  try {
    return planStretches(segment, piece, formulation, points);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const at = (theta: number) => points.plan(formulation, solved.get(theta) ?? segment.sample.from);
    const { start: from, end: to } = segment;
    return [{ from, to, start: at(from), end: at(to) }];
  }
}

/** Neighbours between which nothing turns become one. */
function steady(stretches: readonly PlanStretch[]): PlanStretch[] {
  const result: PlanStretch[] = [];
  for (const stretch of stretches) {
    const last = result.at(-1);
    if (last === undefined || changeAt('turn', last, stretch).length > 0) result.push(stretch);
    else result[result.length - 1] = { ...last, to: stretch.to, end: stretch.end };
  }
  return result;
}

function changeAt(manner: 'jump' | 'turn', left: PlanStretch, right: PlanStretch): PlanMove[] {
  return manner === 'jump'
    ? movesBetween(left.end.quantities, right.start.quantities)
    : movesBetween(rates(left), rates(right));
}

function rates({ start, end, from, to }: PlanStretch): Quantity[] {
  return start.quantities.map((quantity, i) => ({
    ...quantity,
    amount: to > from ? (end.quantities[i].amount - quantity.amount) / (to - from) : 0,
  }));
}

function onward({ start, end }: { start: PointPlan; end: PointPlan }): Pick<SweepPoint, 'onward'> {
  const moves: PlanMove[] = start === end ? [] : movesBetween(start.quantities, end.quantities);
  return moves.length === 0 ? {} : { onward: moves };
}
