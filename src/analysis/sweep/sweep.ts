import type { Problem } from '../../issue/problem.js';
import type { Formulation } from '../../planning/formulate.js';
import { reachOf } from '../../program/affine-change.js';
import { hasIntegers } from '../../program/linear-program.js';
import type { Solver } from '../../solver/choose.js';
import { Unfinished } from '../unfinished.js';
import { type AffinePiece, type ProgramPiece, programPieces } from '../variant/affine-pieces.js';
import type { Parameter } from '../variant/parameter.js';
import { familyOf, type ProgramFamily } from '../variant/program-family.js';
import { validRange } from '../variant/valid-range.js';
import { PointSolver } from './solve-point.js';
import { sweepAffine } from './sweep-affine.js';
import type { Reach, SweepAnswer } from './sweep-answer.js';
import { sweepMeasured } from './sweep-measured.js';
import { type SweepProgress, SweepRecord } from './sweep-record.js';

export interface SweepRequest {
  readonly parameter: Parameter;
  readonly from: number;
  readonly to: number;
  /** For curves that are not exact: the error, relative to the scale, at which sampling ends. 1e-4 if absent. */
  readonly tolerance?: number;
  /** For the same: no more points than this. 129 if absent. */
  readonly mostPoints?: number;
}

export interface SweepHooks {
  readonly cancelled?: () => boolean;
  readonly onProgress?: (progress: SweepProgress) => void;
}

export type SweepOutcome =
  | SweepAnswer
  | { readonly status: 'problems'; readonly problems: readonly Problem[] };

/**
 * Present value of the best plan as a function of a parameter between two values. What the parameter reaches in
 * the program decides how: only the objective, a convex curve, or only right sides and bounds, a concave one,
 * both traced exactly; both at once, sampled with a proved error; everything else, sampled with a measured one.
 */
export function sweep(
  document: unknown,
  { parameter, from, to, tolerance = 1e-4, mostPoints = 129 }: SweepRequest,
  solver: Solver,
  hooks: SweepHooks = {},
): SweepOutcome {
  if (!(from <= to)) throw new RangeError(`the range from ${from} to ${to} runs backwards`);
  const found = familyOf(document, parameter, hooks.cancelled);
  if (!found.ok) return { status: 'problems', problems: found.problems };
  const { family, own } = found;
  const record = new SweepRecord(from, to, hooks.onProgress);
  const points = new PointSolver(solver, { cancelled: hooks.cancelled });
  const limits = { tolerance, most: mostPoints };
  try {
    for (const piece of piecesIn(family, from, to, parameter.kind === 'factor' ? 1 : own[0], record)) {
      const formulation = formulationAt(family, piece.from);
      const isExactable = piece.kind === 'affine' && !isMeasuredOnly(piece);
      const done = isExactable && sweepAffine(piece, formulation, points, limits, record);
      if (!done) sweepMeasured(family, piece, reachOfPiece(piece), points, limits, record, hooks);
    }
  } finally {
    points.close();
  }
  return record.answer(points);
}

/** The pieces of the valid part of a range; none where it was stopped before they were told. */
function piecesIn(
  family: ProgramFamily,
  from: number,
  to: number,
  own: number,
  record: SweepRecord,
): ProgramPiece[] {
  try {
    const { valid, invalid } = validRange(family, from, to, own);
    const pieces =
      valid === undefined
        ? []
        : programPieces((at) => formulationAt(family, at).program, valid.from, valid.to);
    for (const range of invalid) record.range({ ...range, status: 'invalid' });
    return pieces;
  } catch (error) {
    if (!(error instanceof Unfinished)) throw error;
    record.range({ from, to, status: 'not asked' });
    return [];
  }
}

/** Inside a valid range every member is one. */
function formulationAt(family: ProgramFamily, at: number): Formulation {
  const member = family(at);
  if (!member.ok) throw new RangeError(`the scenario is not valid at ${at}: ${member.problems[0]?.message}`);
  return member.formulation;
}

function isMeasuredOnly(piece: AffinePiece): boolean {
  return reachOf(piece.change) === 'matrix' || hasIntegers(piece.program);
}

function reachOfPiece(piece: ProgramPiece): Reach {
  if (piece.kind === 'curved') return 'curved';
  return hasIntegers(piece.program) ? 'whole numbers' : reachOf(piece.change);
}
