import { passing, type RosinRammler } from './sizing.js';

/** A measured point of a distribution of sizes. */
export interface SievePoint {
  /** mm */
  readonly opening: number;
  /** Share of the mass that is finer, 0 to 1. */
  readonly passing: number;
}

/** The distribution that fits best, and how well. */
export interface SizingFit extends RosinRammler {
  /** Root of the mean squared difference of the shares passing. */
  readonly rms: number;
  /** The point that differs most: measured less fitted. */
  readonly worst: SievePoint & { readonly difference: number };
  readonly points: readonly (SievePoint & { readonly fitted: number })[];
}

const ROUNDS = 200;
const SMALLEST_STEP = 1e-12;
const LARGEST_DAMPING = 1e12;

/**
 * Fits d63 and n of F(d) = 1 − exp(−(d / d63)^n) by least squares in F. The start is the straight line
 * ln(−ln(1 − F)) = n·ln d − n·ln d63 through the points that are strictly between 0 and 1; from there
 * Gauss–Newton in (ln d63, ln n), damped after Levenberg and Marquardt.
 *
 * @throws RangeError where fewer than two openings have a share strictly between 0 and 1, or where the shares do
 *   not rise with the openings
 */
export function fitRosinRammler(table: readonly SievePoint[]): SizingFit {
  let at = linearStart(table);
  let damping = 1e-3;
  let squares = sumOfSquares(table, at);
  for (let round = 0; round < ROUNDS && damping < LARGEST_DAMPING; round += 1) {
    const step = dampedStep(table, at, damping);
    const next = { d63: at.d63 * Math.exp(step[0]), n: at.n * Math.exp(step[1]) };
    const nextSquares = sumOfSquares(table, next);
    if (!(nextSquares <= squares)) {
      damping *= 10;
      continue;
    }
    at = next;
    squares = nextSquares;
    damping /= 10;
    if (Math.max(Math.abs(step[0]), Math.abs(step[1])) < SMALLEST_STEP) break;
  }
  return withErrors(table, at);
}

function linearStart(table: readonly SievePoint[]): RosinRammler {
  const inside = table.filter((point) => point.passing > 0 && point.passing < 1);
  if (new Set(inside.map(({ opening }) => opening)).size < 2) {
    throw new RangeError('A fit needs two openings whose share passing is strictly between 0 and 1.');
  }
  const x = inside.map(({ opening }) => Math.log(opening));
  const y = inside.map((point) => Math.log(-Math.log1p(-point.passing)));
  const meanX = mean(x);
  const meanY = mean(y);
  const covariance = mean(x.map((value, i) => (value - meanX) * (y[i]! - meanY)));
  const n = covariance / mean(x.map((value) => (value - meanX) ** 2));
  if (!(n > 0)) throw new RangeError('The share passing must rise with the opening.');
  return { d63: Math.exp(meanX - meanY / n), n };
}

/**
 * Solves (JᵀJ + damping·diag(JᵀJ))·step = Jᵀ·residual for the parameters ln d63 and ln n, where with u = (d/d63)^n
 * ∂F/∂ln d63 = −n·u·e^(−u) and ∂F/∂ln n = n·ln(d/d63)·u·e^(−u).
 */
function dampedStep(table: readonly SievePoint[], at: RosinRammler, damping: number): [number, number] {
  let [aa, ab, bb, ra, rb] = [0, 0, 0, 0, 0];
  for (const point of table) {
    const ratio = point.opening / at.d63;
    const u = ratio ** at.n;
    const slope = at.n * u * Math.exp(-u);
    const [a, b] = [-slope, Math.log(ratio) * slope];
    const residual = point.passing - passing(at, point.opening);
    aa += a * a;
    ab += a * b;
    bb += b * b;
    ra += a * residual;
    rb += b * residual;
  }
  aa *= 1 + damping;
  bb *= 1 + damping;
  const determinant = aa * bb - ab * ab;
  return [(ra * bb - rb * ab) / determinant, (aa * rb - ab * ra) / determinant];
}

function withErrors(table: readonly SievePoint[], { d63, n }: RosinRammler): SizingFit {
  const points = table.map((point) => ({ ...point, fitted: passing({ d63, n }, point.opening) }));
  const differences = points.map((point) => point.passing - point.fitted);
  const largest = differences.reduce(
    (at, value, i) => (Math.abs(value) > Math.abs(differences[at]!) ? i : at),
    0,
  );
  return {
    d63,
    n,
    rms: Math.sqrt(mean(differences.map((value) => value ** 2))),
    worst: { ...table[largest]!, difference: differences[largest]! },
    points,
  };
}

function sumOfSquares(table: readonly SievePoint[], at: RosinRammler): number {
  return table.reduce((sum, point) => sum + (point.passing - passing(at, point.opening)) ** 2, 0);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
