import { changed } from '../../program/affine-change.js';
import { type Curve, tracePiecewiseLinear } from '../../program/piecewise-linear.js';
import { Unfinished } from '../unfinished.js';
import type { AffinePiece } from '../variant/affine-pieces.js';
import { solveAt } from './feasible-range.js';
import { evaluationOf, type PointSolver, type SolvedPoint } from './solve-point.js';

/** Relative to the scale: a difference in value that counts as none. */
export const VALUE_TOLERANCE = 1e-9;

export interface TracedCurve {
  readonly curve: Curve<SolvedPoint>;
  /** The solved points at the ends and breaks of the segments, by their place. */
  readonly solved: ReadonlyMap<number, SolvedPoint>;
}

/**
 * The curve of an affine piece between two feasible points, exactly. The piece changes only the objective (the
 * value is convex) or only right sides and bounds (it is concave).
 *
 * @throws Unfinished; RangeError where the curve turns out to be neither.
 */
export function traceCurve(
  piece: AffinePiece,
  first: SolvedPoint,
  last: SolvedPoint,
  points: PointSolver,
  onPoint: (point: SolvedPoint) => void = () => {},
): TracedCurve {
  const solved = new Map([
    [first.at, first],
    [last.at, last],
  ]);
  const at = (theta: number): SolvedPoint => {
    const known = solved.get(theta);
    if (known !== undefined) return known;
    const point = solveAt(piece, theta, points);
    // Between two feasible points every point is feasible: an engine that says otherwise has lost its way.
    if (point === undefined) throw new Unfinished('no certified answer');
    solved.set(theta, point);
    onPoint(point);
    return point;
  };
  const tolerance = VALUE_TOLERANCE * Math.max(first.scale, last.scale);
  const curve = tracePiecewiseLinear((theta) => evaluationOf(at(theta), piece.change), first.at, last.at, {
    tolerance,
  });
  return { curve, solved };
}

/** The program of a piece at a value of the parameter. */
export function programAt(piece: AffinePiece, at: number): AffinePiece['program'] {
  return changed(piece.program, piece.change, at - piece.from);
}
