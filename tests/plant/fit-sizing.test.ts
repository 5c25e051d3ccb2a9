import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitRosinRammler } from '../../src/plant/fit-sizing.js';
import { passing, sizePassing } from '../../src/plant/sizing.js';

describe('fit of a Rosin–Rammler distribution', () => {
  test('through 90 % under 850 µm and 30 % under 212 µm (data: https://www.myengineeringtools.com/references/pages/rosin-rammler_distribution_parameters.html; answer computed)', () => {
    const fit = fitRosinRammler([
      { opening: 0.85, passing: 0.9 },
      { opening: 0.212, passing: 0.3 },
    ]);
    expect(fit.n).toBeCloseTo(1.343, 4);
    expect(fit.d63).toBeCloseTo(0.45679, 5);
    expect(sizePassing(fit, 0.5)).toBeCloseTo(0.34769, 5);
    expect(fit.rms).toBeLessThan(1e-9);
  });

  test('through the middles of a gradation band, 60 % under 1.18 mm and 11 % under 0.60 mm (Caltrans special provisions; fit computed)', () => {
    const fit = fitRosinRammler([
      { opening: 1.18, passing: 0.6 },
      { opening: 0.6, passing: 0.11 },
    ]);
    expect(fit.n).toBeCloseTo(3.049, 3);
    expect(fit.d63).toBeCloseTo(1.2143, 4);
  });

  test('gives back the distribution that made the table', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        (d63, n) => {
          const table = [0.2, 0.4, 0.7, 1, 1.4, 2].map((ratio) => ({
            opening: ratio * d63,
            passing: passing({ d63, n }, ratio * d63),
          }));
          const fit = fitRosinRammler(table);
          expect(fit.d63 / d63).toBeCloseTo(1, 8);
          expect(fit.n / n).toBeCloseTo(1, 8);
        },
      ),
      { seed: 11 },
    );
  });

  test('no distribution near the fit is closer to the table', () => {
    const table = [
      { opening: 2, passing: 0.99 },
      { opening: 1.18, passing: 0.61 },
      { opening: 0.6, passing: 0.09 },
      { opening: 0.3, passing: 0.04 },
      { opening: 0.15, passing: 0.01 },
    ];
    const fit = fitRosinRammler(table);
    const squares = (d63: number, n: number) =>
      table.reduce((sum, point) => sum + (point.passing - passing({ d63, n }, point.opening)) ** 2, 0);
    const best = squares(fit.d63, fit.n);
    expect(fit.rms).toBeCloseTo(Math.sqrt(best / table.length), 14);
    for (const scale of [0.99, 0.999, 1.001, 1.01]) {
      expect(squares(fit.d63 * scale, fit.n)).toBeGreaterThan(best);
      expect(squares(fit.d63, fit.n * scale)).toBeGreaterThan(best);
    }
    const largest = Math.max(...fit.points.map((point) => Math.abs(point.passing - point.fitted)));
    expect(Math.abs(fit.worst.difference)).toBe(largest);
  });

  test('a table with fewer than two openings inside, or one that falls, has no fit', () => {
    expect(() => fitRosinRammler([{ opening: 1, passing: 0.5 }])).toThrow(RangeError);
    expect(() =>
      fitRosinRammler([
        { opening: 1, passing: 0.5 },
        { opening: 2, passing: 1 },
      ]),
    ).toThrow(RangeError);
    expect(() =>
      fitRosinRammler([
        { opening: 1, passing: 0.8 },
        { opening: 2, passing: 0.2 },
      ]),
    ).toThrow(RangeError);
  });
});
