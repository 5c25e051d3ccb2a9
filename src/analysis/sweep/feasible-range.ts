import type { ColumnKey, RowKey } from '../../planning/keys.js';
import { changed } from '../../program/affine-change.js';
import type { LinearProgram } from '../../program/linear-program.js';
import { type ParametricRow, withParameterColumn } from '../../program/parameter-column.js';
import type { Certified } from '../../solver/answer.js';
import type { AffinePiece } from '../variant/affine-pieces.js';
import type { PointSolver, SolvedPoint } from './solve-point.js';

export type Limit = ParametricRow<RowKey, ColumnKey>;

/** The part of a piece on which a plan exists, its ends solved, and the limits that end it. */
export interface FeasibleRange {
  readonly feasible?: { readonly first: SolvedPoint; readonly last: SolvedPoint };
  /** At the left and the right edge; absent where the piece is feasible up to its end. */
  readonly left?: readonly Limit[];
  readonly right?: readonly Limit[];
}

/** Shares of the piece by which a solve at the very edge may have to step inside. */
const STEPS_INSIDE = [0, 1e-9, 1e-8, 1e-7, 1e-6];

/** Relative to the largest dual: a limit with a smaller one does not hold the edge. */
const HOLDS = 1e-7;

/**
 * Where a piece is feasible: an interval, whose ends are the least and the greatest value of the parameter as a
 * variable of the program. The two are solved for only where an end of the piece is infeasible.
 */
export function feasibleRange(piece: AffinePiece, points: PointSolver): FeasibleRange {
  const first = solveAt(piece, piece.from, points);
  const last = piece.to === piece.from ? first : solveAt(piece, piece.to, points);
  const left = first === undefined ? edge(piece, 'minimize', points) : undefined;
  const right = last === undefined ? edge(piece, 'maximize', points) : undefined;
  const low = first ?? (left === undefined ? undefined : nearEdge(piece, left.at, 1, points));
  const high = last ?? (right === undefined ? undefined : nearEdge(piece, right.at, -1, points));
  return {
    ...(low === undefined || high === undefined || low.at > high.at
      ? {}
      : { feasible: { first: low, last: high } }),
    ...(first === undefined ? { left: left?.limits ?? [] } : {}),
    ...(last === undefined ? { right: right?.limits ?? [] } : {}),
  };
}

export function solveAt(piece: AffinePiece, at: number, points: PointSolver): SolvedPoint | undefined {
  return points.solve(changed(piece.program, piece.change, at - piece.from), at);
}

/**
 * The least or greatest value of the parameter, counted from the program, and the limits that hold it there.
 * Undefined where there is no feasible plan at any value.
 */
export function edgeOf(
  { program, change }: Pick<AffinePiece, 'program' | 'change'>,
  width: number,
  sense: 'maximize' | 'minimize',
  solve: (program: EdgeProgram) => Certified<Limit, ColumnKey | 'parameter'> | undefined,
): { theta: number; limits: Limit[] } | undefined {
  const parametric = withParameterColumn(program, change, width, sense);
  const solved = solve(parametric);
  if (solved === undefined) return undefined;
  const largest = solved.rowDual.reduce((most, dual) => Math.max(most, Math.abs(dual)), 0);
  const limits = parametric.rowKeys.filter((_, i) => Math.abs(solved.rowDual[i]) > HOLDS * largest);
  return { theta: solved.answer.primal[parametric.cost.length - 1], limits };
}

type EdgeProgram = LinearProgram<Limit, ColumnKey | 'parameter'>;

function edge(piece: AffinePiece, sense: 'maximize' | 'minimize', points: PointSolver) {
  const found = edgeOf(piece, piece.to - piece.from, sense, (program) => points.solveApart(program));
  if (found === undefined) return undefined;
  return { at: Math.min(piece.to, piece.from + found.theta), limits: found.limits };
}

function nearEdge(
  piece: AffinePiece,
  at: number,
  inward: 1 | -1,
  points: PointSolver,
): SolvedPoint | undefined {
  for (const share of STEPS_INSIDE) {
    const inside = at + inward * share * (piece.to - piece.from);
    if (inside < piece.from || inside > piece.to) return undefined;
    const solved = solveAt(piece, inside, points);
    if (solved !== undefined) return solved;
  }
  return undefined;
}
