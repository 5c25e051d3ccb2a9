/** A value of a curve, a slope that supports it there, and what it came from. */
export interface Evaluation<T> {
  readonly at: number;
  readonly value: number;
  /** A supergradient of a concave curve, a subgradient of a convex one. */
  readonly slope: number;
  readonly from: T;
}

/** A stretch on which the curve is one straight line; `sample` is an evaluation with its slope. */
export interface Segment<T> {
  readonly start: number;
  readonly end: number;
  readonly startValue: number;
  readonly endValue: number;
  readonly slope: number;
  readonly sample: Evaluation<T>;
}

export interface Curve<T> {
  /** From left to right, joined, neighbours of different slope. */
  readonly segments: readonly Segment<T>[];
  readonly evaluations: number;
}

export interface TraceOptions {
  /** Difference in value that counts as none. */
  readonly tolerance: number;
  /** More evaluations than this throw: the curve is not what it was said to be. */
  readonly most?: number;
}

/**
 * Traces a concave or convex piecewise-linear curve exactly, by its tangents: two tangents meet where the
 * curve either has its only break between them or lies away from both, which shows a further stretch.
 * With k segments at most 2k + 3 evaluations.
 *
 * @throws RangeError when the curve turns out to be neither, or needs more evaluations than allowed.
 */
export function tracePiecewiseLinear<T>(
  evaluate: (at: number) => Evaluation<T>,
  start: number,
  end: number,
  options: TraceOptions,
): Curve<T> {
  let evaluations = 0;
  const { tolerance, most = 10_000 } = options;
  const ask = (at: number): Evaluation<T> => {
    evaluations += 1;
    if (evaluations > most) throw new RangeError(`the curve needs more than ${most} evaluations`);
    return evaluate(at);
  };
  const left = ask(start);
  if (start === end) return { segments: [straight(left, left, left)], evaluations };
  const segments: Segment<T>[] = [];
  const pending: [Evaluation<T>, Evaluation<T>][] = [[left, ask(end)]];
  while (pending.length > 0) {
    const [a, b] = pending.pop() as [Evaluation<T>, Evaluation<T>];
    const line = lineThrough(a, b, tolerance);
    if (line !== undefined) {
      segments.push(straight(a, b, line));
      continue;
    }
    const meeting = meetingOf(a, b);
    const middle = ask(meeting.at);
    if (Math.abs(middle.value - meeting.value) <= tolerance) {
      segments.push(straight(a, middle, a), straight(middle, b, b));
    } else {
      pending.push([middle, b], [a, middle]);
    }
  }
  return { segments: joined(segments), evaluations };
}

/** The evaluation whose tangent runs through both, if the curve is straight between them. */
function lineThrough<T>(a: Evaluation<T>, b: Evaluation<T>, tolerance: number): Evaluation<T> | undefined {
  const width = b.at - a.at;
  if (Math.abs(a.value + a.slope * width - b.value) <= tolerance) return a;
  if (Math.abs(b.value - b.slope * width - a.value) <= tolerance) return b;
  return undefined;
}

function meetingOf<T>(a: Evaluation<T>, b: Evaluation<T>): { at: number; value: number } {
  const at = (b.value - b.slope * b.at - a.value + a.slope * a.at) / (a.slope - b.slope);
  // Rounding can push the meeting of nearly parallel tangents onto an end; halving still makes headway.
  const inside = at > a.at && at < b.at ? at : (a.at + b.at) / 2;
  if (inside <= a.at || inside >= b.at)
    throw new RangeError(`the curve breaks at ${a.at} in a way no line explains`);
  return { at: inside, value: a.value + a.slope * (inside - a.at) };
}

function straight<T>(a: Evaluation<T>, b: Evaluation<T>, sample: Evaluation<T>): Segment<T> {
  return { start: a.at, end: b.at, startValue: a.value, endValue: b.value, slope: sample.slope, sample };
}

/** Neighbours that go on in the same line become one. */
function joined<T>(segments: readonly Segment<T>[]): Segment<T>[] {
  const result: Segment<T>[] = [];
  for (const segment of segments) {
    const last = result.at(-1);
    const bend = last === undefined ? 1 : Math.abs(segment.slope - last.slope);
    const size = Math.abs(segment.slope) + Math.abs(last?.slope ?? 0);
    if (last !== undefined && bend <= 1e-9 * size) {
      result[result.length - 1] = { ...last, end: segment.end, endValue: segment.endValue };
    } else {
      result.push(segment);
    }
  }
  return result;
}
