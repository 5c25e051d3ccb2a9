import type { PlanProgram } from '../../planning/formulate.js';
import { type AffineChange, changeBetween, changed } from '../../program/affine-change.js';
import type { LinearProgram } from '../../program/linear-program.js';

/** A part of a range in which every figure of the program moves on a straight line, or else is not known to. */
export type ProgramPiece = AffinePiece | CurvedPiece;

export interface AffinePiece {
  readonly kind: 'affine';
  readonly from: number;
  readonly to: number;
  /** At `from`. */
  readonly program: PlanProgram;
  /** By unit of the parameter. */
  readonly change: AffineChange;
}

export interface CurvedPiece {
  readonly kind: 'curved';
  readonly from: number;
  readonly to: number;
}

type ProgramAt = (at: number) => PlanProgram;

/** Where inside a piece its straightness is tested: shares that no formula is likely to hit. */
const TESTED = [0.381966, 0.7431];

/** Relative to the figure: what differs by less is rounding. */
const ROUNDING = 1e-11;

/** How often a range may be split at floors and ceilings before it counts as curved, all in all and before any part of it is straight. */
const MOST_SPLITS = 60;
const MOST_SPLITS_WITHOUT_A_PIECE = 8;

/**
 * Splits a range at the values where figures of the program bend (a price meets its floor or ceiling). A bend is
 * where the lines on both its sides meet. What is still not straight after some splits is curved.
 */
export function programPieces(programAt: ProgramAt, from: number, to: number): ProgramPiece[] {
  const pieces: ProgramPiece[] = [];
  const pending: [number, number][] = [[from, to]];
  let splits = 0;
  while (pending.length > 0) {
    const [a, b] = pending.pop() as [number, number];
    const piece = affinePiece(programAt, a, b);
    if (piece !== undefined) {
      pieces.push(piece);
      continue;
    }
    const cuts = bendsBetween(programAt, a, b);
    splits += cuts.length;
    const most = pieces.length === 0 ? MOST_SPLITS_WITHOUT_A_PIECE : MOST_SPLITS;
    if (cuts.length <= 1 && splits > most) return [{ kind: 'curved', from, to }];
    if (splits > 4 * MOST_SPLITS || b - a <= 1e-9 * (to - from)) return [{ kind: 'curved', from, to }];
    const ends = [a, ...cuts, b];
    for (let i = ends.length - 2; i >= 0; i--) pending.push([ends[i], ends[i + 1]]);
  }
  return pieces;
}

function affinePiece(programAt: ProgramAt, a: number, b: number): AffinePiece | undefined {
  const program = programAt(a);
  if (a === b)
    return { kind: 'affine', from: a, to: b, program, change: changeBetween(program, program, 1)! };
  const last = programAt(b);
  const change = changeBetween(program, last, b - a);
  if (change === undefined) return undefined;
  const isStraight = TESTED.every((share) => {
    const at = a + share * (b - a);
    return agree(changed(program, change, at - a), programAt(at), [program, last]);
  });
  return isStraight ? { kind: 'affine', from: a, to: b, program, change } : undefined;
}

/** Where the line along the left end meets the line along the right end, figure by figure; else the middle. */
function bendsBetween(programAt: ProgramAt, a: number, b: number): number[] {
  const width = b - a;
  const step = width / 97;
  const left = [figures(programAt(a)), figures(programAt(a + step))];
  const right = [figures(programAt(b - step)), figures(programAt(b))];
  const bends = new Set<number>();
  if (
    left[0].length === right[1].length &&
    left[1].length === left[0].length &&
    right[0].length === left[0].length
  ) {
    for (let i = 0; i < left[0].length; i++) {
      const slopeLeft = (left[1][i] - left[0][i]) / step;
      const slopeRight = (right[1][i] - right[0][i]) / step;
      const size = Math.max(Math.abs(left[0][i]), Math.abs(right[1][i]));
      if (!(Math.abs(slopeLeft - slopeRight) * width > 1e-9 * size)) continue;
      const at = a + (right[1][i] - slopeRight * width - left[0][i]) / (slopeLeft - slopeRight);
      if (at > a + 1e-12 * width && at < b - 1e-12 * width) bends.add(at);
    }
  }
  const sorted = [...bends].sort((x, y) => x - y);
  const apart = sorted.filter((at, i) => i === 0 || at - sorted[i - 1] > 1e-10 * width);
  return apart.length === 0 || apart.length > MOST_SPLITS ? [a + width / 2] : apart;
}

function figures(program: LinearProgram): number[] {
  const { offset, cost, columnLower, columnUpper, rowLower, rowUpper, matrix } = program;
  return [offset, ...cost, ...columnLower, ...columnUpper, ...rowLower, ...rowUpper, ...matrix.values];
}

/** Whether two programs are the same but for rounding, which is judged by the figures at the ends. */
export function agree(
  predicted: LinearProgram,
  actual: LinearProgram,
  ends: readonly LinearProgram[],
): boolean {
  if (changeBetween(predicted, actual, 1) === undefined) return false;
  const [x, y] = [figures(predicted), figures(actual)];
  const sizes = ends.map(figures);
  return x.every((value, i) => {
    if (value === y[i]) return true;
    const size = Math.max(Math.abs(y[i]), ...sizes.map((end) => Math.abs(end[i])));
    return Math.abs(value - y[i]) <= ROUNDING * size;
  });
}
