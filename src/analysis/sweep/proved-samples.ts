import { chordError } from '../../program/chord.js';
import { Unfinished } from '../unfinished.js';
import type { AffinePiece } from '../variant/affine-pieces.js';
import { solveAt } from './feasible-range.js';
import type { PointSolver, SolvedPoint } from './solve-point.js';
import type { SweepPoint } from './sweep-answer.js';

export interface ProvedSamples {
  readonly points: readonly SweepPoint[];
  readonly solved: readonly SolvedPoint[];
  /** Currency. */
  readonly error: number;
}

export interface SamplingLimits {
  /** Relative to the scale: the error at which sampling ends. */
  readonly tolerance: number;
  readonly most: number;
}

/**
 * A piece on which costs and right sides both move affinely: neither convex nor concave. The stretch with the
 * widest proved error is halved until the error is small enough or enough points are asked.
 *
 * @throws Unfinished
 */
export function provedSamples(
  piece: AffinePiece,
  first: SolvedPoint,
  last: SolvedPoint,
  points: PointSolver,
  limits: SamplingLimits,
  onPoint: (point: SolvedPoint) => void = () => {},
): ProvedSamples {
  const solved = first.at === last.at ? [first] : [first, last];
  const errors = first.at === last.at ? [] : [errorBetween(first, last)];
  const goal = limits.tolerance * Math.max(first.scale, last.scale);
  while (solved.length < limits.most && errors.length > 0) {
    const widest = errors.indexOf(Math.max(...errors));
    if (errors[widest] <= goal) break;
    const [a, b] = [solved[widest], solved[widest + 1]];
    const middle = solveAt(piece, (a.at + b.at) / 2, points);
    if (middle === undefined) throw new Unfinished('no certified answer');
    onPoint(middle);
    solved.splice(widest + 1, 0, middle);
    errors.splice(widest, 1, errorBetween(a, middle), errorBetween(middle, b));
  }
  return {
    solved,
    error: Math.max(0, ...errors),
    points: solved.map(({ at, value }, i) => ({
      at,
      value,
      kind: i === 0 || i === solved.length - 1 ? 'end' : 'sample',
    })),
  };
}

function errorBetween(a: SolvedPoint, b: SolvedPoint): number {
  const { above, below } = chordError(a, b);
  return Math.max(above, below);
}
