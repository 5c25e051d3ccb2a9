import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Evaluation, tracePiecewiseLinear } from '../../src/program/piecewise-linear.js';

/** The lower envelope of lines: concave. The slope is that of any line on it, the choice by `turn`. */
function envelope(lines: readonly (readonly [slope: number, intercept: number])[], turn = 0) {
  return (at: number): Evaluation<undefined> => {
    const value = Math.min(...lines.map(([slope, intercept]) => slope * at + intercept));
    const touching = lines.filter(([slope, intercept]) => slope * at + intercept - value <= 1e-9);
    return { at, value, slope: touching[turn % touching.length][0], from: undefined };
  };
}

describe('tracing a piecewise-linear curve', () => {
  it('finds the breaks of a concave curve by hand', () => {
    // min(3θ, θ + 4, 10): breaks at 2 and 6.
    const curve = tracePiecewiseLinear(
      envelope([
        [3, 0],
        [1, 4],
        [0, 10],
      ]),
      0,
      10,
      { tolerance: 1e-9 },
    );
    expect(curve.segments.map(({ start, end, slope }) => [start, end, slope])).toEqual([
      [0, 2, 3],
      [2, 6, 1],
      [6, 10, 0],
    ]);
  });

  it('takes one evaluation where there is no width, two where the curve is straight', () => {
    expect(tracePiecewiseLinear(envelope([[1, 0]]), 5, 5, { tolerance: 1e-9 }).evaluations).toBe(1);
    expect(tracePiecewiseLinear(envelope([[1, 0]]), 0, 5, { tolerance: 1e-9 }).evaluations).toBe(2);
  });

  it('finds every break in at most 2 evaluations a segment and 3, whichever slope a kink answers with', () => {
    const line = fc.tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -500, max: 500 }));
    fc.assert(
      fc.property(
        fc.array(line, { minLength: 1, maxLength: 12 }),
        fc.nat(5),
        fc.boolean(),
        (lines, turn, convex) => {
          const sign = convex ? -1 : 1;
          const concave = envelope(lines, turn);
          const evaluate = (at: number) => {
            const { value, slope } = concave(at);
            return { at, value: sign * value, slope: sign * slope, from: undefined };
          };
          const curve = tracePiecewiseLinear(evaluate, -20, 20, { tolerance: 1e-9 });
          for (let at = -20; at <= 20; at += 0.37) {
            const segment = curve.segments.find((each) => at >= each.start && at <= each.end);
            expect(segment).toBeDefined();
            if (segment === undefined) return;
            expect(segment.startValue + segment.slope * (at - segment.start)).toBeCloseTo(
              evaluate(at).value,
              6,
            );
          }
          expect(curve.evaluations).toBeLessThanOrEqual(2 * curve.segments.length + 3);
        },
      ),
      { seed: 20270101, numRuns: 300 },
    );
  });

  it('refuses a curve that is neither concave nor convex', () => {
    const wave = (at: number) => ({ at, value: Math.sin(at), slope: Math.cos(at), from: undefined });
    expect(() => tracePiecewiseLinear(wave, 0, 20, { tolerance: 1e-12, most: 200 })).toThrow(RangeError);
  });
});
