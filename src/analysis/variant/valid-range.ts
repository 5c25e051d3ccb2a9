import type { Problem } from '../../issue/problem.js';
import type { ProgramFamily } from './program-family.js';

/** A part of a range in which the scenario is not one, and why. */
export interface InvalidRange {
  readonly from: number;
  readonly to: number;
  readonly problems: readonly Problem[];
}

export interface ValidRange {
  /** Undefined where no valid value was found. */
  readonly valid?: { readonly from: number; readonly to: number };
  readonly invalid: readonly InvalidRange[];
}

/** Values at which a valid scenario is looked for where both ends are invalid, as shares of the range. */
const PROBES = [0.5, 0.25, 0.75, 0.125, 0.375, 0.625, 0.875, 0.01, 0.99];

/**
 * The part of a range in which the scenario passes its checks: an interval, since they bound each number from
 * below and above. Its ends are the last valid floating-point numbers, found by halving.
 */
export function validRange(family: ProgramFamily, from: number, to: number, own?: number): ValidRange {
  const problemsAt = (at: number): readonly Problem[] | undefined => {
    const member = family(at);
    return member.ok ? undefined : member.problems;
  };
  const left = problemsAt(from);
  const right = problemsAt(to);
  if (left === undefined && right === undefined) return { valid: { from, to }, invalid: [] };
  const inside = insideOf(problemsAt, from, to, own, left, right);
  if (inside === undefined) return { invalid: [{ from, to, problems: left ?? right ?? [] }] };
  const low = left === undefined ? from : lastValid(problemsAt, inside, from);
  const high = right === undefined ? to : lastValid(problemsAt, inside, to);
  return {
    valid: { from: low, to: high },
    invalid: [
      ...(left === undefined ? [] : [{ from, to: low, problems: left }]),
      ...(right === undefined ? [] : [{ from: high, to, problems: right }]),
    ],
  };
}

type ProblemsAt = (at: number) => readonly Problem[] | undefined;

function insideOf(
  problemsAt: ProblemsAt,
  from: number,
  to: number,
  own: number | undefined,
  left: readonly Problem[] | undefined,
  right: readonly Problem[] | undefined,
): number | undefined {
  if (left === undefined) return from;
  if (right === undefined) return to;
  const probes = PROBES.map((share) => from + share * (to - from));
  const candidates = own !== undefined && own >= from && own <= to ? [own, ...probes] : probes;
  return candidates.find((at) => problemsAt(at) === undefined);
}

/** The last valid number before the edge; the few round ones near it are tried first, since edges mostly are. */
function lastValid(problemsAt: ProblemsAt, valid: number, invalid: number): number {
  const scale = Math.max(Math.abs(valid), Math.abs(invalid));
  let [good, bad] = [valid, invalid];
  let isRoundTried = false;
  while (Math.abs(bad - good) > 1e-12 * scale) {
    if (!isRoundTried && Math.abs(bad - good) <= 1e-4 * scale) {
      isRoundTried = true;
      const round = roundBetween(good, bad);
      const beyond = round + Math.sign(bad - good) * 1e-12 * scale;
      if (problemsAt(round) === undefined) {
        if (problemsAt(beyond) !== undefined) return round;
        good = round;
      } else bad = round;
    }
    const middle = good + (bad - good) / 2;
    if (problemsAt(middle) === undefined) good = middle;
    else bad = middle;
  }
  return good;
}

/** The number with the fewest digits between two. */
function roundBetween(a: number, b: number): number {
  if (a * b <= 0) return 0;
  const middle = a + (b - a) / 2;
  for (let digits = 1; digits <= 15; digits++) {
    const round = Number(middle.toPrecision(digits));
    if ((round - a) * (round - b) <= 0) return round;
  }
  return middle;
}
