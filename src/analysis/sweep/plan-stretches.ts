import type { Formulation, PlanProgram } from '../../planning/formulate.js';
import { faceOfPrices, fewestMachineHours, firstById } from '../../planning/optimal-face.js';
import { type AffineChange, changeBetween, changed } from '../../program/affine-change.js';
import { type Segment, tracePiecewiseLinear } from '../../program/piecewise-linear.js';
import type { AffinePiece } from '../variant/affine-pieces.js';
import { programAt, VALUE_TOLERANCE } from './exact-curve.js';
import { evaluationOf, type PointPlan, type PointSolver, planOf, type SolvedPoint } from './solve-point.js';

/** A stretch on which the best plan moves on a straight line from one plan to another. */
export interface PlanStretch {
  readonly from: number;
  readonly to: number;
  readonly start: PointPlan;
  readonly end: PointPlan;
}

/** Lists what makes one of several plans of equal value the one that is taken, the first the most. */
type Preference = (program: PlanProgram) => PlanProgram;

/** More evaluations on one stretch than this: its turns are not told. */
const MOST = 200;

/**
 * The stretches of plans along one straight segment of a concave curve. Right sides move, so the plan does; of plans
 * of equal value the one with the fewest machine-hours, of those the first by id. The segment's prices hold all along
 * it, so the plans of equal value are the points of one face whose right sides move too: what is least on it is a
 * piecewise-linear function again, whose breaks are where the plan turns although the value runs straight.
 *
 * @throws Unfinished
 */
export function planStretches(
  segment: Segment<SolvedPoint>,
  piece: AffinePiece,
  formulation: Formulation,
  points: PointSolver,
): PlanStretch[] {
  const { plant, columns } = formulation;
  const preferences: Preference[] = [(program) => fewestMachineHours(plant, columns, program), firstById];
  const { rowDual } = segment.sample.from;
  const [first, last] = [segment.start, segment.end].map((at) => faceOfPrices(programAt(piece, at), rowDual));
  const ends = prefer(first, last, segment.start, segment.end, preferences, points);
  return ends.map(({ from, to, start, end }) => ({
    from,
    to,
    start: planOf(plant, start.program, start.primal),
    end: planOf(plant, end.program, end.primal),
  }));
}

interface SolvedStretch {
  readonly from: number;
  readonly to: number;
  readonly start: SolvedPoint;
  readonly end: SolvedPoint;
}

/** Traces the first preference between two faces; on each of its stretches the next one, and so on. */
function prefer(
  first: PlanProgram,
  last: PlanProgram,
  from: number,
  to: number,
  [preference, ...rest]: readonly Preference[],
  points: PointSolver,
): SolvedStretch[] {
  const [start, end] = [preference(first), preference(last)];
  const change = changeBetween(start, end, to - from || 1);
  if (change === undefined) throw new RangeError('two faces of one stretch differ in shape');
  const { segments, solved } = trace(start, change, from, to, points);
  return segments.flatMap(({ start: a, end: b, sample }): SolvedStretch[] => {
    const place = (at: number) => solved.get(at) ?? sample.from;
    if (rest.length === 0) return [{ from: a, to: b, start: place(a), end: place(b) }];
    const face = (at: number) => faceOfPrices(changed(start, change, at - from), sample.from.rowDual);
    return prefer(face(a), face(b), a, b, rest, points);
  });
}

function trace(program: PlanProgram, change: AffineChange, from: number, to: number, points: PointSolver) {
  const solved = new Map<number, SolvedPoint>();
  let scale = 0;
  const at = (theta: number): SolvedPoint => {
    const known = solved.get(theta);
    if (known !== undefined) return known;
    const point = points.preferred(changed(program, change, theta - from), theta);
    solved.set(theta, point);
    scale = Math.max(scale, point.scale);
    return point;
  };
  for (const end of [from, to]) at(end);
  const tolerance = VALUE_TOLERANCE * Math.max(scale, Number.MIN_VALUE);
  const { segments } = tracePiecewiseLinear((theta) => evaluationOf(at(theta), change), from, to, {
    tolerance,
    most: MOST,
  });
  return { segments, solved };
}
