/** A value of a curve and the slope of a line that supports it there; `at` may be Infinity, then with slope 0. */
export interface Support<T = unknown> {
  readonly at: number;
  readonly value: number;
  readonly slope: number;
  readonly from: T;
}

/** The first straight stretch of a curve from 0 on. `next` supports the curve beyond its end. */
export interface Stretch<T> {
  readonly slope: number;
  readonly end: number;
  readonly next?: Support<T>;
  readonly evaluations: number;
}

export interface StretchOptions {
  /** Difference in value that counts as none. */
  readonly tolerance: number;
  /** A stretch shorter than this is none. */
  readonly shortest: number;
  /** More evaluations than this throw. */
  readonly most?: number;
}

/**
 * The first straight stretch, to the right of 0, of a curve that bends one way only (concave or convex) and is
 * piecewise linear: its slope there and where it ends, both exact. From the far end the supporting lines are
 * followed inwards: each meeting of lines either lies on the curve, or shows a further stretch. `slope` is one
 * that supports the curve at 0, not always the one to the right: the first stretch says which.
 *
 * @throws RangeError when the curve turns out to be something else.
 */
export function firstStretch<T>(
  evaluate: (at: number) => Support<T>,
  start: { readonly value: number; readonly slope: number },
  far: Support<T>,
  options: StretchOptions,
): Stretch<T> {
  const { tolerance, shortest, most = 200 } = options;
  let evaluations = 0;
  const ask = (at: number) => {
    evaluations += 1;
    if (evaluations > most) throw new RangeError(`the curve needs more than ${most} evaluations`);
    return evaluate(at);
  };
  let outer: Support<T> | undefined;
  let inner = far;
  let slope = start.slope;
  while (Math.abs(atZero(inner) - start.value) > tolerance) {
    const at = Math.max(meeting(start.value, slope, inner), shortest);
    const next = ask(at);
    outer = inner;
    if (at > shortest && Math.abs(next.value - start.value - slope * at) <= tolerance) {
      return { slope, end: at, next: outer, evaluations };
    }
    if (at === shortest) {
      // The line at 0 ends at once: what follows is the first stretch.
      slope = next.slope;
      const settled = endOfLine(ask, { value: next.value - slope * at, slope }, outer, options);
      return { slope, ...settled, evaluations };
    }
    inner = next;
  }
  slope = inner.slope;
  if (outer === undefined) return { slope, end: inner.at, evaluations };
  return { slope, ...endOf(ask, { value: start.value, slope }, outer, options), evaluations };
}

/**
 * Where a line that the curve follows from 0 on is left, given a supporting line beyond: the meeting of the two
 * if the curve goes through it, else of the line and what supports the curve there, and so on inwards.
 */
export function endOfLine<T>(
  evaluate: (at: number) => Support<T>,
  line: { readonly value: number; readonly slope: number },
  far: Support<T>,
  options: StretchOptions,
): { readonly end: number; readonly next?: Support<T> } {
  if (onLine(line, far, options.tolerance)) return { end: far.at };
  return endOf(evaluate, line, far, options);
}

function endOf<T>(
  ask: (at: number) => Support<T>,
  line: { readonly value: number; readonly slope: number },
  far: Support<T>,
  { tolerance, shortest, most = 200 }: StretchOptions,
): { end: number; next: Support<T> } {
  let outer = far;
  for (let count = 0; count < most; count++) {
    const at = meeting(line.value, line.slope, outer);
    if (at <= shortest) return { end: 0, next: outer };
    const found = ask(at);
    if (onLine(line, found, tolerance)) return { end: at, next: outer };
    outer = found;
  }
  throw new RangeError('the line ends in a way that no supporting line explains');
}

function onLine(line: { value: number; slope: number }, point: Support, tolerance: number): boolean {
  if (point.at !== Number.POSITIVE_INFINITY) {
    return Math.abs(line.value + line.slope * point.at - point.value) <= tolerance;
  }
  return Math.abs(line.slope) <= tolerance && Math.abs(line.value - point.value) <= tolerance;
}

/** Where the supporting line of a point passes 0. */
function atZero({ at, value, slope }: Support): number {
  return at === Number.POSITIVE_INFINITY ? value : value - slope * at;
}

/** Where the line from (0, value) meets the supporting line of a point, at or before it. */
function meeting(value: number, slope: number, point: Support): number {
  const at = (atZero(point) - value) / (slope - point.slope);
  return Number.isFinite(at) && at > 0 ? Math.min(at, point.at) : 0;
}
