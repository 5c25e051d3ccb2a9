import type { SweepAnswer } from '../../../src/analysis/sweep/sweep-answer.js';
import { familyOf } from '../../../src/analysis/variant/program-family.js';
import { changeBetween, changed } from '../../../src/program/affine-change.js';
import type { Solver } from '../../../src/solver/choose.js';
import { openWarm } from '../../../src/solver/warm-solver.js';
import type { SweepCase } from './cases.js';

/** Relative to the scale: a bend smaller than this is rounding. */
const ROUNDING = 1e-11;

/** What a grid of solves says against an exact curve. */
export interface GridVerdict {
  /** Places between two reported breakpoints where the values of the grid bend nevertheless. */
  readonly missing: readonly number[];
  /** Reported breakpoints at which the values of the grid do not bend, although they would by enough to be seen. */
  readonly spurious: readonly number[];
  /** Largest distance of the curve from a value of the grid, relative to the scale. */
  readonly worst: number;
  readonly solves: number;
}

/**
 * Solves the program at evenly spaced places between the ends of a curve, without its breakpoints, and compares.
 * Three neighbours between two breakpoints must lie on one line; three with a breakpoint among them must not.
 */
export function againstGrid(
  one: SweepCase,
  { points, scale }: SweepAnswer,
  cells: number,
  solver: Solver,
): GridVerdict {
  const [from, to] = [points[0].at, points[points.length - 1].at];
  const width = (to - from) / cells;
  const places = Array.from({ length: cells + 1 }, (_, i) => from + i * width);
  const values = valuesAt(one, places, solver);
  const kinks = points.filter(({ kind }) => kind === 'breakpoint');
  const bends = places.map((_, i) =>
    i === 0 || i === cells ? 0 : Math.abs(values[i + 1] - 2 * values[i] + values[i - 1]),
  );
  const near = (at: number) => Math.floor((at - from) / width);
  const allowed = new Set(kinks.flatMap(({ at }) => [near(at) - 1, near(at), near(at) + 1, near(at) + 2]));
  const missing = places.filter((_, i) => !allowed.has(i) && bends[i] > ROUNDING * scale);
  const spurious = kinks
    .filter(({ at, slopeLeft = 0, slopeRight = 0 }) => {
      const i = near(at);
      const turn = Math.abs(slopeRight - slopeLeft) * width;
      // The bends of the places beside a kink add up to its turn.
      const seen = Math.max(...[i, i + 1].map((k) => bends[k] ?? 0));
      return turn > 10 * ROUNDING * scale && seen < 0.4 * turn && i > 0 && i < cells - 1;
    })
    .map(({ at }) => at);
  const worst = Math.max(...places.map((at, i) => Math.abs(values[i] - curveAt(points, at)) / scale));
  return { missing, spurious, worst, solves: places.length };
}

/** Values of the program between two built ones; every hundredth is built by itself and must be the same. */
function valuesAt(one: SweepCase, places: readonly number[], solver: Solver): number[] {
  const found = familyOf(one.document, one.parameter);
  if (!found.ok) throw new Error('no family');
  const programAt = (at: number) => {
    const member = found.family(at);
    if (!member.ok) throw new Error(`no plant at ${at}`);
    return member.formulation.program;
  };
  const [first, last] = [places[0], places[places.length - 1]];
  const [start, end] = [programAt(first), programAt(last)];
  const change = changeBetween(start, end, last - first);
  if (change === undefined) throw new Error('the program changes its shape');
  const warm = openWarm(solver);
  try {
    return places.map((at, i) => {
      const program = i % 100 === 0 ? programAt(at) : changed(start, change, at - first);
      const solved = warm.solve(program);
      return solved.kind === 'solved' ? solved.certificate.objective : Number.NaN;
    });
  } finally {
    warm.close();
  }
}

function curveAt(points: SweepAnswer['points'], at: number): number {
  const k = points.findIndex((point, i) => point.at <= at && at <= (points[i + 1]?.at ?? -Infinity));
  const [a, b] = k < 0 ? [points[points.length - 2], points[points.length - 1]] : [points[k], points[k + 1]];
  return a.value + ((b.value - a.value) * (at - a.at)) / (b.at - a.at);
}
