import type { Formulation } from '../../planning/formulate.js';
import type { Segment } from '../../program/piecewise-linear.js';
import { movesBetween, type PlanMove, type Quantity } from '../variant/plan-quantities.js';
import type { TracedCurve } from './exact-curve.js';
import type { PointPlan, PointSolver, SolvedPoint } from './solve-point.js';
import type { SweepPoint } from './sweep-answer.js';

/** What the plan does on a segment: it stands still (a convex curve), or it moves steadily (a concave one). */
interface SegmentPlan {
  readonly start: PointPlan;
  readonly end: PointPlan;
}

/**
 * The points of a traced curve with what changes in the plan at each break. Where only the objective moves, one
 * plan is the best along a whole segment and jumps to another at the break. Where right sides move, the plan
 * moves along and turns at the break.
 */
export function curvePoints(
  { curve, solved }: TracedCurve,
  manner: 'jump' | 'turn',
  formulation: Formulation,
  points: PointSolver,
): SweepPoint[] {
  const plans = curve.segments.map((segment) => planOf(segment, solved, manner, formulation, points));
  const result: SweepPoint[] = [];
  curve.segments.forEach((segment, k) => {
    const before = curve.segments[k - 1];
    result.push({
      at: segment.start,
      value: segment.startValue,
      ...(before === undefined ? {} : { slopeLeft: before.slope }),
      ...(segment.end > segment.start ? { slopeRight: segment.slope } : {}),
      kind: before === undefined ? 'end' : 'breakpoint',
      ...(before === undefined ? {} : { tonnesLeft: plans[k - 1].end.tonnes }),
      tonnesRight: plans[k].start.tonnes,
      ...(before === undefined ? {} : changeAt(manner, [before, plans[k - 1]], [segment, plans[k]])),
      ...onward(plans[k]),
    });
  });
  const last = curve.segments[curve.segments.length - 1];
  if (last.end > last.start) {
    const tonnesLeft = plans[plans.length - 1].end.tonnes;
    result.push({ at: last.end, value: last.endValue, slopeLeft: last.slope, kind: 'end', tonnesLeft });
  }
  return result;
}

function planOf(
  segment: Segment<SolvedPoint>,
  solved: ReadonlyMap<number, SolvedPoint>,
  manner: 'jump' | 'turn',
  formulation: Formulation,
  points: PointSolver,
): SegmentPlan {
  const at = (theta: number) => points.plan(formulation, solved.get(theta) ?? segment.sample.from);
  if (manner === 'turn') return { start: at(segment.start), end: at(segment.end) };
  const still = points.plan(formulation, segment.sample.from);
  return { start: still, end: still };
}

function changeAt(
  manner: 'jump' | 'turn',
  [left, leftPlan]: [Segment<SolvedPoint>, SegmentPlan],
  [right, rightPlan]: [Segment<SolvedPoint>, SegmentPlan],
): Pick<SweepPoint, 'change'> {
  const moves =
    manner === 'jump'
      ? movesBetween(leftPlan.end.quantities, rightPlan.start.quantities)
      : movesBetween(rates(leftPlan, left.end - left.start), rates(rightPlan, right.end - right.start));
  return { change: { manner, moves } };
}

function rates({ start, end }: SegmentPlan, width: number): Quantity[] {
  return start.quantities.map((quantity, i) => ({
    ...quantity,
    amount: (end.quantities[i].amount - quantity.amount) / width,
  }));
}

function onward({ start, end }: SegmentPlan): Pick<SweepPoint, 'onward'> {
  const moves: PlanMove[] = start === end ? [] : movesBetween(start.quantities, end.quantities);
  return moves.length === 0 ? {} : { onward: moves };
}
