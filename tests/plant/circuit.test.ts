import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { circulatingLoad, passesOf } from '../../src/plant/circuit.js';

/** Machine first, screen after: of each pass the undersize times the efficiency leaves, the rest goes back. */
function roundByRound(fresh: number, undersize: number, efficiency: number, rounds: number): number[] {
  const throughput = [fresh];
  for (let round = 1; round < rounds; round += 1) {
    throughput.push(fresh + throughput.at(-1)! * (1 - undersize * efficiency));
  }
  return throughput;
}

describe('closed circuit of machine and screen', () => {
  test('100 t/h with 70 % passing settle as printed (worked example, https://www.scribd.com/document/402021999/)', () => {
    const printed = [100, 130, 139, 141.7, 142.51, 142.75, 142.83, 142.85];
    const series = roundByRound(100, 0.7, 1, printed.length);
    // Printed to two decimals, the fifth and later rounded or cut.
    for (const [i, value] of series.entries()) expect(Math.abs(value - printed[i]!)).toBeLessThan(0.011);
    const circuit = { undersize: 0.7, screenEfficiency: 1 };
    expect(100 * passesOf(circuit)).toBeCloseTo(142.857, 3);
    expect(100 * circulatingLoad(circuit)).toBeCloseTo(42.857, 3);
  });

  test('100 t/h, 54 % passing, screen 85 % efficient: 117.865 t/h go back (tutorial question of a university course; answer computed)', () => {
    const circuit = { undersize: 0.54, screenEfficiency: 0.85 };
    expect(100 * circulatingLoad(circuit)).toBeCloseTo(117.865, 3);
    expect(100 * passesOf(circuit)).toBeCloseTo(217.865, 3);
  });

  test('100 t/h, 50 % passing, screen 90 % efficient: 122.222 t/h go back (computed)', () => {
    expect(100 * circulatingLoad({ undersize: 0.5, screenEfficiency: 0.9 })).toBeCloseTo(122.222, 3);
  });

  test('more undersize or a better screen never sends more back, and a perfect pass sends nothing', () => {
    const share = fc.double({ min: 0.01, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, share, share, (undersize, screenEfficiency, better) => {
        const load = circulatingLoad({ undersize, screenEfficiency });
        const finer = circulatingLoad({ undersize: Math.max(undersize, better), screenEfficiency });
        const sharper = circulatingLoad({
          undersize,
          screenEfficiency: Math.max(screenEfficiency, better),
        });
        expect(finer).toBeLessThanOrEqual(load);
        expect(sharper).toBeLessThanOrEqual(load);
      }),
      { seed: 8 },
    );
    expect(circulatingLoad({ undersize: 1, screenEfficiency: 1 })).toBe(0);
  });

  test('the steady state is where the rounds lead', () => {
    const rounds = roundByRound(100, 0.35, 0.8, 400);
    expect(rounds.at(-1)).toBeCloseTo(100 * passesOf({ undersize: 0.35, screenEfficiency: 0.8 }), 9);
  });
});
