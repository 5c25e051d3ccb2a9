import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { passing, screen, screenWithReturn, sizePassing } from '../../src/plant/sizing.js';

describe('Rosin–Rammler distribution', () => {
  test('63.2 % passes d63, whatever the spread', () => {
    for (const n of [0.5, 1, 2, 3.05])
      expect(passing({ d63: 2.1, n }, 2.1)).toBeCloseTo(1 - Math.exp(-1), 14);
  });

  test("d' = 100, n = 2: shares and sizes to six figures (computed)", () => {
    const distribution = { d63: 100, n: 2 };
    expect(passing(distribution, 50)).toBeCloseTo(0.221199, 6);
    expect(passing(distribution, 100)).toBeCloseTo(0.632121, 6);
    expect(sizePassing(distribution, 0.1)).toBeCloseTo(32.459, 3);
    expect(sizePassing(distribution, 0.5)).toBeCloseTo(83.255, 3);
    expect(sizePassing(distribution, 0.9)).toBeCloseTo(151.743, 3);
  });

  test("d50 = d'·(ln 2)^(1/n) (https://novasolver.jp/en/tools/particle-size-distribution.html)", () => {
    expect(sizePassing({ d63: 456.79, n: 1.343 }, 0.5)).toBeCloseTo(456.79 * Math.log(2) ** (1 / 1.343), 9);
  });

  test('it is the share passing that rises with the size, not the share retained', () => {
    expect(passing({ d63: 2, n: 1.3 }, 4)).toBeGreaterThan(passing({ d63: 2, n: 1.3 }, 1));
    expect(passing({ d63: 2, n: 1.3 }, 1000)).toBe(1);
  });
});

describe('screen', () => {
  const distribution = { d63: 2.1, n: 1.3 };

  test('over and under of two decks, by hand', () => {
    // F(4) = 1 − exp(−(4/2.1)^1.3), F(2) likewise; P_1 = 0.92·F(4), P_2 = 0.92·0.9·F(2).
    const [f4, f2] = [1 - Math.exp(-((4 / 2.1) ** 1.3)), 1 - Math.exp(-((2 / 2.1) ** 1.3))];
    const { over, under } = screen(distribution, [
      { opening: 4, efficiency: 0.92 },
      { opening: 2, efficiency: 0.9 },
    ]);
    expect(over[0]).toBeCloseTo(1 - 0.92 * f4, 12);
    expect(over[1]).toBeCloseTo(0.92 * f4 - 0.92 * 0.9 * f2, 12);
    expect(under).toBeCloseTo(0.92 * 0.9 * f2, 12);
  });

  test('with return the rest is in the same proportion, and the machine works 1/P_1 passes', () => {
    const decks = [
      { opening: 4, efficiency: 0.92 },
      { opening: 2, efficiency: 0.9 },
    ];
    const once = screen(distribution, decks);
    const closed = screenWithReturn(distribution, decks);
    expect(closed.over[0]).toBe(0);
    expect(closed.passes * (1 - once.over[0]!)).toBeCloseTo(1, 12);
    expect(closed.under / closed.over[1]!).toBeCloseTo(once.under / once.over[1]!, 12);
    expect(closed.under + closed.over[1]!).toBeCloseTo(1, 12);
  });

  test('80 t/h of undersize in the feed, screen 85 % efficient: 68 recovered, 12 lost (https://www.processconvert.com/calculators/screen-efficiency)', () => {
    // A feed of 100 t/h of which 80 % is under the opening: F(d63·(ln 5)^(1/n)) = 0.8.
    const opening = sizePassing(distribution, 0.8);
    const { over, under } = screen(distribution, [{ opening, efficiency: 0.85 }]);
    expect(100 * under).toBeCloseTo(68, 9);
    expect(100 * over[0]! - 20).toBeCloseTo(12, 9);
  });

  test('shares are at least 0 and add up to 1, from coarse to fine', () => {
    const deck = fc.record({
      opening: fc.double({ min: 0.05, max: 30, noNaN: true }),
      efficiency: fc.double({ min: 0.05, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        fc.double({ min: 0.4, max: 4, noNaN: true }),
        fc.array(deck, { minLength: 1, maxLength: 4 }),
        (d63, n, decks) => {
          const coarseFirst = [...decks].sort((a, b) => b.opening - a.opening);
          const { over, under } = screen({ d63, n }, coarseFirst);
          expect(Math.min(...over, under)).toBeGreaterThanOrEqual(-1e-15);
          expect([...over, under].reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
        },
      ),
      { seed: 5 },
    );
  });
});
