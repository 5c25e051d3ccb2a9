import type { Formulation } from '../../planning/formulate.js';
import { Unfinished } from '../unfinished.js';
import type { AffinePiece } from '../variant/affine-pieces.js';
import { curvePoints } from './curve-points.js';
import { isFreeOfDeclaredTonnes } from './declared-tonnes.js';
import { type TracedCurve, traceCurve } from './exact-curve.js';
import { feasibleRange } from './feasible-range.js';
import { type ProvedSamples, provedSamples, type SamplingLimits } from './proved-samples.js';
import type { PointSolver, SolvedPoint } from './solve-point.js';
import type { SweepPoint } from './sweep-answer.js';
import type { SweepRecord } from './sweep-record.js';

/**
 * Sweeps an affine piece that leaves the matrix as it is. False where the linear program's value turns out not to
 * be the plan's; the piece is then to be measured.
 */
export function sweepAffine(
  piece: AffinePiece,
  formulation: Formulation,
  points: PointSolver,
  limits: SamplingLimits,
  record: SweepRecord,
): boolean {
  const asked: SolvedPoint[] = [];
  const onPoint = (point: SolvedPoint) => {
    asked.push(point);
    record.asked(point);
  };
  try {
    const { feasible, left, right } = feasibleRange(piece, points);
    if (feasible === undefined) {
      record.range({ from: piece.from, to: piece.to, status: 'infeasible', limits: left ?? right ?? [] });
      return true;
    }
    const { first, last } = feasible;
    for (const end of first.at === last.at ? [first] : [first, last]) onPoint(end);
    const found = curveOn(piece, first, last, formulation, points, limits, onPoint);
    if (found === undefined) return false;
    if (left !== undefined) {
      record.range({ from: piece.from, to: first.at, status: 'infeasible', limits: left });
    }
    record.answered(reachOfChange(piece), found.points, found.error);
    if (right !== undefined) {
      record.range({ from: last.at, to: piece.to, status: 'infeasible', limits: right });
    }
    return true;
  } catch (error) {
    if (!(error instanceof Unfinished)) throw error;
    keepPartial(piece, asked, error, record);
    return true;
  }
}

export function reachOfChange({ change }: AffinePiece): 'nothing' | 'objective' | 'right sides' | 'both' {
  const { cost, columnLower, columnUpper, rowLower, rowUpper, offset } = change;
  const hasSides = columnLower.size + columnUpper.size + rowLower.size + rowUpper.size > 0;
  if (cost.size > 0) return hasSides ? 'both' : 'objective';
  // A constant in the objective only tilts the curve: it stays concave.
  if (hasSides) return 'right sides';
  return offset === 0 ? 'nothing' : 'objective';
}

interface Found {
  readonly points: readonly SweepPoint[];
  readonly error?: { readonly kind: 'proved'; readonly amount: number };
}

function curveOn(
  piece: AffinePiece,
  first: SolvedPoint,
  last: SolvedPoint,
  formulation: Formulation,
  points: PointSolver,
  limits: SamplingLimits,
  onPoint: (point: SolvedPoint) => void,
): Found | undefined {
  const reach = reachOfChange(piece);
  if (reach === 'both') {
    const sampled = provedSamples(piece, first, last, points, limits, onPoint);
    if (!areFree(formulation, sampled.solved)) return undefined;
    return {
      points: withTonnes(sampled, formulation, points),
      error: { kind: 'proved', amount: sampled.error },
    };
  }
  const traced = traceCurve(piece, first, last, points, onPoint);
  const manner = reach === 'right sides' ? 'turn' : 'jump';
  if (!isHonest(traced, manner, formulation)) return undefined;
  return { points: curvePoints(traced, manner, piece, formulation, points) };
}

/** The points of a sampled piece with the tonnes of their plans. */
function withTonnes(
  { points: sampled, solved }: ProvedSamples,
  formulation: Formulation,
  points: PointSolver,
): SweepPoint[] {
  return sampled.map((point, i) => {
    const { tonnes } = points.plan(formulation, solved[i]);
    return {
      ...point,
      ...(i === 0 ? {} : { tonnesLeft: tonnes }),
      ...(i === sampled.length - 1 && i > 0 ? {} : { tonnesRight: tonnes }),
    };
  });
}

/** The plan that stands on a segment, or all that lie between its ends, declare no tonnes that they deliver. */
function isHonest(
  { curve, solved }: TracedCurve,
  manner: 'jump' | 'turn',
  formulation: Formulation,
): boolean {
  if (manner === 'jump') {
    return curve.segments.every(({ sample }) =>
      isFreeOfDeclaredTonnes(formulation, sample.from, sample.from),
    );
  }
  return curve.segments.every(({ start, end, sample }) =>
    isFreeOfDeclaredTonnes(formulation, solved.get(start) ?? sample.from, solved.get(end) ?? sample.from),
  );
}

function areFree(formulation: Formulation, solved: readonly SolvedPoint[]): boolean {
  return solved.every((point, i) => isFreeOfDeclaredTonnes(formulation, point, solved[i + 1] ?? point));
}

/** What was asked before the end came, as points without lines between them. */
function keepPartial(
  piece: AffinePiece,
  asked: readonly SolvedPoint[],
  { reason }: Unfinished,
  record: SweepRecord,
): void {
  const sorted = [...asked].sort((a, b) => a.at - b.at);
  record.answered(
    reachOfChange(piece),
    sorted.map(({ at, value }) => ({ at, value, kind: 'sample' })),
  );
  const status = reason === 'cancelled' ? 'not asked' : reason;
  record.range({ from: piece.from, to: piece.to, status });
}
